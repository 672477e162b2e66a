using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The day plan, in words.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone.</param>
/// <param name="Now">The instant.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Bays">The bays.</param>
/// <param name="Conflicts">Who would harm whom, and the nearest time without harm.</param>
/// <param name="Expected">The cars whose coming can be planned otherwise.</param>
/// <param name="Works">What may be planned: its name on the wire, and in words.</param>
/// <param name="Assumed">What the plan takes for granted.</param>
/// <param name="Cautions">What to take care of.</param>
/// <param name="Faults">Why what was asked for was not done.</param>
/// <param name="Refused">The form that asked for it, to be mended instead of filled in again.</param>
public sealed record PlanView(
    string Shop,
    string Zone,
    Moment Now,
    IReadOnlyList<TroubleView> Troubles,
    IReadOnlyList<BayPlanView> Bays,
    IReadOnlyList<Sentence> Conflicts,
    IReadOnlyList<VisitView> Expected,
    IReadOnlyList<(string Work, Sentence Words)> Works,
    IReadOnlyList<Sentence> Assumed,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<Sentence> Faults,
    RefusedForm Refused);

/// <summary>A bay on the time line.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Text">When it is free, in a sentence.</param>
/// <param name="Line">Its time line: what is drawn of the next days.</param>
/// <param name="Cars">Its cars.</param>
/// <param name="Work">The other work planned in it.</param>
public sealed record BayPlanView(string Bay, Sentence Text, TimeLine Line, IReadOnlyList<CarPlanView> Cars, IReadOnlyList<WorkPlanView> Work);

/// <summary>A car on the time line.</summary>
/// <param name="Job">Its job.</param>
/// <param name="Tone">Whether it fits.</param>
/// <param name="Text">How it goes, in a sentence.</param>
/// <param name="Reasons">Every reason against what is planned.</param>
public sealed record CarPlanView(string Job, Tone Tone, Sentence Text, IReadOnlyList<StartReasonView> Reasons);

/// <summary>Planned work.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Tone">Whether it harms anybody.</param>
/// <param name="Text">What, when, by whom.</param>
/// <param name="Work">Its name on the wire.</param>
/// <param name="From">When it begins, as a form takes it.</param>
/// <param name="To">When it ends, as a form takes it.</param>
/// <param name="By">Who plans it.</param>
/// <param name="Note">In their words.</param>
public sealed record WorkPlanView(string Id, Tone Tone, Sentence Text, string Work, string From, string To, string By, string Note);

/// <summary>When a car is planned to come.</summary>
/// <param name="Job">Its job.</param>
/// <param name="Name">The car.</param>
/// <param name="Arrives">When it comes, as a form takes it.</param>
/// <param name="ArrivesC">How cold or warm.</param>
/// <param name="Planned">When its coating is to begin, as a form takes it.</param>
public sealed record VisitView(string Job, string Name, string Arrives, double? ArrivesC, string Planned);

/// <summary>What is drawn of a bay's next days.</summary>
/// <param name="Label">The same in words.</param>
/// <param name="Spans">What is on it: its kind, where it begins and how long it is, in thousandths of the line.</param>
/// <param name="Days">Where days begin, in thousandths, with their names.</param>
public sealed record TimeLine(Sentence Label, IReadOnlyList<(string Kind, int From, int Length)> Spans, IReadOnlyList<(int At, Sentence Name)> Days);
