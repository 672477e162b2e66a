using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>What coats that are not begun yet would do, begun at instants that are still to come.</summary>
/// <remarks>They have sections that no surface has, another for each instant, so that none is taken for a coat that is on, or for each other.</remarks>
internal sealed class CoatsAhead(Shop shop, Present present, Job job)
{
    private int _section;

    /// <summary>How long a coat begun at an instant takes.</summary>
    public CoatTimes TimesOf(SurfaceStory story, int layer, SectionPace pace, DateTimeOffset from)
    {
        int section = --_section;
        SurfaceStory dry = story with { Wettings = [] };
        return CoatTimes.Of(story.Surface, layer, pace, from, c => present.WindowsOf(job, dry, c with { Section = section }));
    }

    /// <summary>When a coat that is levelled at an instant may get wet; null where its sheet does not say.</summary>
    public TimeBounds? DryAt(SurfaceStory story, int layer, DateTimeOffset levelled)
    {
        var coat = new Coat(story.Surface, layer, --_section, levelled, levelled) { LevelledAt = levelled };
        return shop.LawsOf(coat).KeepDry is null ? null : present.WindowsOf(job, story with { Wettings = [] }, coat).KeepDry?.ClosesAt;
    }
}
