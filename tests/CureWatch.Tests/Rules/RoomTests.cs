using System.Text.RegularExpressions;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Units;

namespace CureWatch.Tests.Rules;

public partial class RoomTests
{
    private static readonly string[] InOrder =
    [
        "Units", "Words", "Psychrometrics", "Readings", "Products", "Panels", "Curing", "Learning", "Forecasting", "TimeWindows", "Planning", "Warnings",
        "Handover", "Bays", "Reports",
    ];

    [Fact]
    public void Room_OfEveryType_IsOneOfTheHouse() => Assert.DoesNotContain(
        typeof(Celsius).Assembly.GetTypes(), t => t.Namespace?.StartsWith("CureWatch", StringComparison.Ordinal) == true && Floor(t) < 0);

    [Fact]
    public void Room_UsesOnlyRoomsBeforeIt() => Assert.Empty(
        from type in typeof(Celsius).Assembly.GetTypes()
        where Floor(type) >= 0
        from used in UsedTypes.Of(type)
        where Floor(used) > Floor(type)
        select $"{type} uses {used}");

    // Constants and comments leave no trace in the compiled rooms: read the text too.
    [Fact]
    public void Room_NamesOnlyRoomsBeforeIt() => Assert.Empty(
        from file in SourceFile.Below("src/CureWatch")
        from Match named in RoomName().Matches(file.Text)
        where Array.IndexOf(InOrder, named.Groups[1].Value) > Array.IndexOf(InOrder, file.Room)
        select $"{file.Path} names {named.Value}");

    // The service's rooms have no order of their own, but each can be read without one that needs it in turn.
    [Fact]
    public void ServiceRooms_UseEachOtherOneWayOnly()
    {
        ILookup<string, string> uses = (
            from file in SourceFile.Below("src/CureWatch.Service")
            from Match named in ServiceRoomName().Matches(file.Text)
            where file.Room.Length > 0 && named.Groups[1].Value != file.Room
            select (file.Room, Used: named.Groups[1].Value)).ToLookup(u => u.Room, u => u.Used);
        HashSet<string> left = [.. uses.Select(u => u.Key)];
        Assert.Contains("Snapshots", left);
        while (left.RemoveWhere(room => !uses[room].Any(left.Contains)) > 0)
        {
            // A room that needs none of those left is in no circle.
        }

        Assert.Empty(left);
    }

    [Fact]
    public void UsedTypes_AreFoundInBodies()
    {
        Assert.Contains(typeof(Source), UsedTypes.Of(typeof(CoatReviews)));
        Assert.DoesNotContain(typeof(Shop), UsedTypes.Of(typeof(Watch)));
    }

    private static int Floor(Type type) => type.Assembly == typeof(Celsius).Assembly && type.Namespace is { } name && name.Contains('.', StringComparison.Ordinal)
        ? Array.IndexOf(InOrder, name.Split('.')[1])
        : -1;

    [GeneratedRegex(@"(?<![\w.]|""|/)(?:CureWatch\.)?(Units|Words|Psychrometrics|Readings|Products|Panels|Curing|Learning|Forecasting|TimeWindows|Planning|Warnings|Handover|Bays|Reports)(?=;|\.[A-Z])")]
    private static partial Regex RoomName();

    [GeneratedRegex(@"\bCureWatch\.Service\.([A-Z]\w+)(?=;|\.[A-Z])")]
    private static partial Regex ServiceRoomName();
}
