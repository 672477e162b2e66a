using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Phone;

namespace CureWatch.Service.Tests.Photos;

/// <summary>Sends a photo as the form on the phone's page does.</summary>
internal static class SentPhoto
{
    public static Task<HttpResponseMessage> SendPhotoAsync(this ServedShop shop, byte[] photo, params (string Name, string Value)[] words) => shop.SendAsync(
        HttpMethod.Post, $"{Thumb.Car}/photos", PhotoPageTests.Form(photo, words), ("Origin", shop.Address.GetLeftPart(UriPartial.Authority)));
}
