using CureWatch.Service.Disk;

namespace CureWatch.Service.Photos;

/// <summary>Puts together what keeps photos. Nothing of it is loaded before the first one comes.</summary>
internal static class PhotosRegistration
{
    /// <param name="services">Where to register; the pump is there already.</param>
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder, held.</param>
    public static IServiceCollection AddPhotos(this IServiceCollection services, IDisk disk, string data) => services
        .AddSingleton(new PhotoShelf(disk, data))
        .AddSingleton<PhotoDesk>()
        .AddHostedService(provider => provider.GetRequiredService<PhotoDesk>());
}
