using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A register of the shop that ships beside the program.</summary>
internal static class Registers
{
    public const string Root = "curewatch/v1/ottermoss-works";
    public const string AirTopic = $"{Root}/bay-1/probe/air";

    public static ShopSettings Shop { get; } = ShopFile.Read(Path.Combine(Shipped.Folder, "shop.json"), new Faults())!;

    public static Latest Latest() =>
        new() { Register = Register.Blank with { Settings = SettingsRegister.Blank with { Shop = Shop } } };
}
