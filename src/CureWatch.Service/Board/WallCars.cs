using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts a car on the wall: what is next, how long that has, and when it leaves.</summary>
internal sealed class WallCars(Look look, ShopClock clock, DayPart part)
{
    /// <param name="state">The car.</param>
    /// <param name="car">The same as the board shows it.</param>
    public WallCarView Of(JobState state, CarView car)
    {
        JobReport report = look.ReportOf(state);
        NextAct? act = report.Next.IsEmpty ? null : report.Next[0].Act;
        return new WallCarView(
            car.Job,
            car.Car,
            car.WhatIsNext,
            clock.Of(act?.From > look.At ? act.From : act?.By),
            car.WhatIsNext is { Cautions: [var first, ..] } ? first : null,
            car.Handover,
            part == DayPart.LockUp ? Stays(report) : null);
    }

    private StaysView Stays(JobReport report)
    {
        ImmutableArray<ToldAct> before = BeforeLockUp.Of(look.Shop.Plan.Hours, report.Next, look.At);
        KeepDry keepDry = report.Ruling.KeepDry;
        Sentence text = report.Ruling.IsReady ? (Sentence)$"May leave tonight."
            : keepDry.Until is { } until ? (Sentence)$"Stays, dry, until {clock.Of(until).Text}: do not move it."
            : !keepDry.IsOver ? (Sentence)$"Stays, dry: nobody can tell yet until when. Do not move it."
            : !before.IsEmpty ? (Sentence)$"Stays: something cannot wait until tomorrow."
            : $"Nothing on it has to stay dry.";
        return new StaysView(!report.Ruling.IsReady && (!keepDry.IsOver || !before.IsEmpty), text, [.. before.Select(b => b.Text)]);
    }
}
