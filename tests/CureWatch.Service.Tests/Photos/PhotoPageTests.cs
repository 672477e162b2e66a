using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using CureWatch.Service.Journal;
using CureWatch.Service.Photos;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Backups;
using CureWatch.Service.Tests.Board;
using CureWatch.Service.Tests.People;
using CureWatch.Service.Tests.Phone;
using SkiaSharp;

namespace CureWatch.Service.Tests.Photos;

/// <summary>A photo from the phone's form to the pages, as a browser without scripts does it.</summary>
public class PhotoPageTests
{
    [Fact]
    public async Task Photo_Added_IsOnThePages_AndServedAsAJpegOfOurs()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        byte[] sent = Pictures.WithExif(Pictures.Of(width: 4000, height: 3000), 6, "SOMEBODY");
        using (HttpResponseMessage answer = await shop.SendPhotoAsync(sent, ("surface", "bonnet"), ("layer", "1"), ("by", "Robin")))
        {
            answer.AssertSeesOther(Thumb.Car);
        }

        JsonElement photo = Assert.Single((await shop.GetAsync("/api/v1/jobs/grey-estate/photos")).GetProperty("photos").EnumerateArray());
        Assert.Equal(("bonnet", "1", "Robin", "1536", "2048"), (photo.Of("surface"), photo.Of("layer"), photo.Of("by"), photo.Of("widthPx"), photo.Of("heightPx")));
        Assert.Contains("Photos (1)", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        Assert.Contains("bonnet, layer 1, 09:01", await shop.WordsAsync("/jobs/grey-estate"), StringComparison.Ordinal);
        string link = photo.Of("href")!;
        using HttpResponseMessage whole = await shop.Client.GetAsync(link, TestContext.Current.CancellationToken);
        byte[] jpeg = await whole.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
        Assert.Equal("image/jpeg", whole.Content.Headers.ContentType!.ToString());
        Assert.Equal("nosniff", whole.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.True(whole.Headers.CacheControl is { Private: true, NoCache: true, NoStore: false });
        Assert.Equal(PhotoShelf.NameOf(jpeg), photo.Of("photo"));
        using SKBitmap small = SKBitmap.Decode(await shop.Client.GetByteArrayAsync($"{link}/small", TestContext.Current.CancellationToken));
        Assert.Equal((240, 320), (small.Width, small.Height));
        using HttpResponseMessage again = await shop.SendAsync(HttpMethod.Get, link, null, ("If-None-Match", whole.Headers.ETag!.ToString()));
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Single(ShopData.Fold(shop.Data).Jobs["grey-estate"].Photos); // as a restart would find it
    }

    [Fact]
    public async Task Photo_SentTwice_IsKeptOnce()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        for (int i = 0; i < 2; i++)
        {
            using HttpResponseMessage answer = await shop.SendPhotoAsync(Pictures.Of());
            answer.AssertSeesOther(Thumb.Car);
        }

        Assert.Single((await shop.GetAsync("/api/v1/jobs/grey-estate/photos")).GetProperty("photos").EnumerateArray());
    }

    [Theory]
    [InlineData("surface", "roof", "Surface: saw")]
    [InlineData("layer", "1", "Layer: saw")] // of no surface
    [InlineData("by", "a\nb", "Who: saw")]
    public async Task Words_ThatCannotBeUsed_AreRefusedByName_AndNoPictureStays(string name, string value, string said)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SendPhotoAsync(Pictures.Of(), (name, value));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(said, await answer.WordsAsync(), StringComparison.Ordinal);
        AssertNothingIsKept(shop);
    }

    [Fact]
    public async Task NoPicture_IsRefusedInASentence_OnThePage()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SendPhotoAsync("<svg/>"u8.ToArray());
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("Photo: saw no picture, or the beginning of one; allowed: a JPEG, PNG or WebP picture", await answer.WordsAsync(), StringComparison.Ordinal);
        AssertNothingIsKept(shop);
    }

    [Theory]
    [InlineData(PhotoDesk.MostBytes + 1)]
    [InlineData(2 * PhotoDesk.MostBytes)] // no browser shows an answer that comes while it still sends
    public async Task Photo_TooLarge_IsRefusedWith413_AndOneSentence(int bytes)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SendPhotoAsync(new byte[bytes]);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("The photo is larger than 20 MB.", await answer.WordsAsync(), StringComparison.Ordinal);
        AssertNothingIsKept(shop);
    }

    [Fact]
    public async Task Form_WithoutAPicture_OrThatIsNone_IsRefused()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage plain = await shop.SubmitAsync($"{Thumb.Car}/photos", ("surface", "bonnet"));
        Assert.Equal(HttpStatusCode.BadRequest, plain.StatusCode);
        using var broken = new StringContent("--x\r\nnonsense");
        broken.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=y");
        using HttpResponseMessage none = await shop.SendAsync(HttpMethod.Post, $"{Thumb.Car}/photos", broken, ("Origin", shop.Address.GetLeftPart(UriPartial.Authority)));
        Assert.Equal(HttpStatusCode.BadRequest, none.StatusCode);
        using HttpResponseMessage foreign = await shop.SendAsync(HttpMethod.Post, $"{Thumb.Car}/photos", Form(Pictures.Of()), ("Origin", "http://elsewhere.example"));
        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
        AssertNothingIsKept(shop);
    }

    [Theory]
    [InlineData("..%2f..%2fkeys%2fjob-grey-estate")]
    [InlineData("..%5c..%5clock")]
    [InlineData("0000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("x")]
    public async Task Picture_ThatTheJournalDoesNotKnow_IsNotLookedFor(string photo)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        foreach (string path in new[] { $"/jobs/grey-estate/photos/{photo}", $"/jobs/grey-estate/photos/{photo}/small" })
        {
            using HttpResponseMessage answer = await shop.Client.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Photo_OfAnotherCar_IsNotShown()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey", "red", StringComparison.Ordinal), HttpStatusCode.Created);
        using HttpResponseMessage answer = await shop.SendPhotoAsync(Pictures.Of());
        string link = (await shop.GetAsync("/api/v1/jobs/grey-estate/photos")).GetProperty("photos")[0].Of("href")!;
        using HttpResponseMessage other = await shop.Client.GetAsync(link.Replace("grey", "red", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, other.StatusCode);
    }

    [Fact]
    public async Task Manager_RemovesAPhoto_ThePictureIsGone_AndTheFactStays_WithWhoDid()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        await shop.PassAsync(1);
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser technician = await Browser.OfTechnicianAsync(shop, manager);
        await shop.AskAsync(new Service.Pump.Arrival.JobStart("job", System.Text.Encoding.UTF8.GetBytes(Asked.Car)));
        using HttpResponseMessage added = await technician.SendAsync(HttpMethod.Post, $"{Thumb.Car}/photos", Form(Pictures.Of(), ("by", "Mallory")));
        added.AssertSeesOther(Thumb.Car);
        string photo = Path.GetFileNameWithoutExtension(Assert.Single(Directory.GetFiles(DataFolder.PhotosOf(shop.Data))));
        string remove = $"/jobs/grey-estate/photos/{photo}/remove";
        Assert.DoesNotContain("Remove the photo", await technician.TextAsync("/jobs/grey-estate"), StringComparison.Ordinal);
        using HttpResponseMessage refused = await technician.SendAsync(remove);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Contains("Remove the photo", await manager.TextAsync("/jobs/grey-estate"), StringComparison.Ordinal);
        using HttpResponseMessage removed = await manager.SendAsync(remove);
        removed.AssertSeesOther("/jobs/grey-estate");
        Assert.Empty(Directory.GetFiles(DataFolder.PhotosOf(shop.Data)));
        using HttpResponseMessage gone = await manager.GetAsync($"/jobs/grey-estate/photos/{photo}");
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        using var document = JsonDocument.Parse(await manager.TextAsync("/api/v1/jobs/grey-estate/photos"));
        JsonElement told = Assert.Single(document.RootElement.GetProperty("photos").EnumerateArray());
        Assert.Equal(("Tom", "Maeve", ""), (told.Of("by"), told.Of("removedBy"), told.Of("href")));
    }

    [Fact]
    public async Task Photo_WithoutAJournal_IsRefused_AndNothingHalfStays()
    {
        await using ServedShop shop = await ServedShop.OpenFragileAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.BreakJournalAsync();
        using HttpResponseMessage answer = await shop.SendPhotoAsync(Pictures.Of());
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Contains("The photo is not kept:", await answer.WordsAsync(), StringComparison.Ordinal);
        AssertNothingIsKept(shop);
    }

    internal static MultipartFormDataContent Form(byte[] photo, params (string Name, string Value)[] words)
    {
        var form = new MultipartFormDataContent();
        foreach ((string name, string value) in words)
        {
            form.Add(new StringContent(value), name);
        }

        form.Add(new ByteArrayContent(photo), "photo", "../../evil.svg");
        return form;
    }

    private static void AssertNothingIsKept(ServedShop shop)
    {
        string folder = DataFolder.PhotosOf(shop.Data);
        Assert.Empty(Directory.Exists(folder) ? Directory.GetFileSystemEntries(folder) : []);
    }
}
