using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Decides which photos are kept, and folds them.</summary>
internal static class PhotoRequests
{
    /// <summary>As many as a car has photos at most. Source (choice): every panel twice, and a backup that is still made in a night.</summary>
    public const int MostOfACar = 60;

    public static Decision OnAdd(Register register, Arrival.Photo arrival)
    {
        if (register.Shop?.Find(arrival.Job) is not { } job || !register.Jobs.TryGetValue(arrival.Job, out JobMarks? marks))
        {
            return Decision.Nothing(register.Jobs.ContainsKey(arrival.Job)
                ? new Answer.Unfit($"The car left more than two days ago, or its visit was cancelled: its record is closed.")
                : new Answer.NoSuchJob(arrival.Job));
        }

        var faults = new Faults();
        Photo? photo = JsonFile.Parse(arrival.Source, arrival.Utf8.Span, faults) is { } top ? Read(top, job, arrival.Picture) : null;
        if (photo is null || faults.Count > 0)
        {
            return Decision.Nothing(new Answer.Refused([.. faults.All]));
        }

        if (marks.Photos.Any(p => p.Removed is null && p.Photo.Sha256 == photo.Sha256))
        {
            return Decision.Nothing(new Answer.Repeated(arrival.Job));
        }

        return marks.Photos.Count(p => p.Removed is null) < MostOfACar
            ? new Decision(new Answer.Stored(arrival.Job), [new Entry.PhotoAdded(arrival.Job, photo)])
            : Decision.Nothing(new Answer.Unfit($"{MostOfACar} photos of this car are kept, and no more: a manager can remove one."));
    }

    public static Decision OnRemove(Register register, Arrival.PhotoRemoval arrival) =>
        register.Jobs.GetValueOrDefault(arrival.Job)?.Photos.LastOrDefault(p => p.Photo.Sha256 == arrival.Sha256) is not { } kept
            ? Decision.Nothing(new Answer.NoSuchJob(arrival.Job))
            : kept.Removed is null
                ? new Decision(new Answer.Stored(arrival.Job), [new Entry.PhotoRemoved(arrival.Job, arrival.Sha256, arrival.By)])
                : Decision.Nothing(new Answer.Repeated(arrival.Job));

    /// <summary>Takes a photo in.</summary>
    public static Register Take(Register register, Entry.PhotoAdded added, DateTimeOffset at) =>
        With(register, added.Job, marks => marks with { Photos = marks.Photos.Add(new KeptPhoto(added.Photo, at)) });

    /// <summary>Takes in that a photo's picture was taken away.</summary>
    public static Register Take(Register register, Entry.PhotoRemoved removed, DateTimeOffset at) => With(register, removed.Job, marks => marks with
    {
        Photos = [.. marks.Photos.Select(p => p.Removed is null && p.Photo.Sha256 == removed.Photo ? p with { Removed = (at, removed.By) } : p)],
    });

    /// <summary>Where the journal's beginning is in an archive, its jobs are not known.</summary>
    private static Register With(Register register, string job, Func<JobMarks, JobMarks> change) =>
        register.Jobs.TryGetValue(job, out JobMarks? marks) ? register with { Jobs = register.Jobs.SetItem(job, change(marks)) } : register;

    private static Photo Read(JsonCursor top, JobState job, Picture picture)
    {
        _ = top.Keys([], "surface", "layer", "by");
        TappedSurfaces surfaces = TappedSurfaces.Of(job.Job.Surfaces);
        string? surface = surfaces.SurfaceOf(top["surface"]);
        int? layer = surfaces.LayerOf(top["layer"], surface);
        if (surface is null && !top["layer"].IsAbsent)
        {
            top["layer"].Refuse("a layer of a surface that is named");
        }

        return new Photo(picture.Sha256, picture.Bytes, picture.WidthPx, picture.HeightPx, surface, layer, top["by"].Text(TapOfJob.LongestBy));
    }
}
