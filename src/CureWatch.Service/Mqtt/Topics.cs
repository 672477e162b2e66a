namespace CureWatch.Service.Mqtt;

/// <summary>The names of a shop's topics.</summary>
internal sealed class Topics(string shop)
{
    /// <summary>What <see cref="Status"/> says while the service runs.</summary>
    public static ReadOnlySpan<byte> Online => "online"u8;

    /// <summary>What it says after, by the service itself or by its will.</summary>
    public static ReadOnlySpan<byte> Offline => "offline"u8;

    /// <summary>What all of them begin with.</summary>
    public string Root { get; } = $"curewatch/v1/{shop}";

    public string Status => $"{Root}/status";

    public string Probe(string bay, string probe) => $"{Root}/{bay}/probe/{probe}";

    public string Tap(string bay) => $"{Root}/{bay}/tap";

    public string Climate(string bay) => $"{Root}/{bay}/climate";

    public string Plan(string bay) => $"{Root}/{bay}/plan";

    public string Tonight(string bay) => $"{Root}/{bay}/tonight";

    public string Morning(string bay) => $"{Root}/{bay}/morning";

    /// <summary>The lock-up summary of the whole shop.</summary>
    public string ShopTonight => $"{Root}/tonight";

    /// <summary>The morning brief of the whole shop.</summary>
    public string ShopMorning => $"{Root}/morning";

    /// <summary>The promises of the whole shop, the one most at risk first.</summary>
    public string Promises => $"{Root}/promises";

    public string Warning(string bay, int number) => $"{Root}/{bay}/warnings/{number}";

    /// <summary>A trouble of the program itself, which is about no bay.</summary>
    public string Trouble(string kind) => $"{Root}/warnings/{kind}";

    public string Windows(string job) => $"{Root}/jobs/{job}/windows";

    public string Start(string job) => $"{Root}/jobs/{job}/start";

    public string Promise(string job) => $"{Root}/jobs/{job}/promise";

    public string Handover(string job) => $"{Root}/jobs/{job}/handover";
}
