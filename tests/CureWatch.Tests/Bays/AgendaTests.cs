using CsCheck;
using CureWatch.Bays;

namespace CureWatch.Tests.Bays;

public class AgendaTests
{
    private static readonly Gen<(int Id, int? Minute)[]> Moves =
        Gen.Select(Gen.Int[0, 9], Gen.Int[0, 20], (id, minute) => (id, minute == 20 ? (int?)null : minute)).Array[0, 60];

    // Beside a plain dictionary that is sorted whenever it is asked.
    [Fact]
    public void Agenda_HoweverItIsMoved_NamesWhoIsDueInOrder() => Gen.Select(Moves, Gen.Int[0, 20]).Sample((moves, now) =>
    {
        var plain = new Dictionary<string, DateTimeOffset>();
        Agenda agenda = Agenda.Empty;
        foreach ((int number, int? minute) in moves)
        {
            string id = $"bay-{number}";
            DateTimeOffset? from = plain.TryGetValue(id, out DateTimeOffset at) ? at : null, to = minute is { } m ? At(m) : null;
            agenda = agenda.Move(id, from, to);
            plain.Remove(id);
            if (to is { } there)
            {
                plain.Add(id, there);
            }
        }

        Assert.Equal(plain.Count == 0 ? null : plain.Values.Min(), agenda.NextAt);
        Assert.Equal(
            plain.Where(p => p.Value <= At(now)).OrderBy(p => p.Value).ThenBy(p => p.Key, StringComparer.Ordinal).Select(p => p.Key),
            agenda.DueBy(At(now)));
    });

    private static DateTimeOffset At(int minute) => TestShop.Start.AddMinutes(minute);
}
