namespace CureWatch.Service.Phone;

/// <summary>Puts the pages of the bay phone beside those of the board.</summary>
internal static class PhoneSetup
{
    public static WebApplication MapPhone(this WebApplication app)
    {
        PhonePages.Map(app);
        PhoneForms.Map(app);
        PhotoForms.Map(app);
        return app;
    }
}
