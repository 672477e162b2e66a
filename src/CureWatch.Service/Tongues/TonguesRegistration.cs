namespace CureWatch.Service.Tongues;

/// <summary>Puts the tongue of whoever asks into a host where people are known.</summary>
internal static class TonguesRegistration
{
    public static IServiceCollection AddTongues(this IServiceCollection services) => services.AddHttpContextAccessor()
        .AddScoped(provider => TongueOfRequest.Of(provider.GetRequiredService<IHttpContextAccessor>().HttpContext));
}
