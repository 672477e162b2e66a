using System.Collections.Immutable;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>
/// A state without what names a person, and that beside it, sealed with the keys of its jobs as the journal seals it: whoever destroys a key has
/// erased it here too, and what is read then is what the journal would give.
/// </summary>
/// <param name="Bare">The state without.</param>
/// <param name="Personal">What was taken out of it, by job.</param>
internal sealed record SealedState(Register Bare, ImmutableDictionary<string, string> Personal)
{
    /// <summary>
    /// Seals a state. What names a person whose key was destroyed meanwhile is left out. Every key seals something, were it nothing: a start from here learns
    /// by it whether it still is that key, before it seals anything else.
    /// </summary>
    public static SealedState Of(Register register, KeyStore keys)
    {
        Register bare = register;
        var personal = ImmutableDictionary.CreateBuilder<string, string>();
        foreach (string job in register.Jobs.Keys)
        {
            Words words = WordsOf(register, job);
            bare = words.IsEmpty ? bare : With(bare, job, Words.None);
            Seal(job, words);
        }

        TapWords[] planned = [.. (register.Shop?.Planned ?? []).Select(w => new TapWords(w.By, w.Note))];
        bare = planned.All(w => w == TapWords.None) ? bare : With(bare, [.. planned.Select(_ => TapWords.None)]);
        Seal(KeyStore.OfNoJob, planned);
        return new SealedState(bare, personal.ToImmutable());

        void Seal<T>(string job, T words)
        {
            if (keys.Find(job) is { IsWhole: true } key)
            {
                personal.Add(job, key.Seal(JsonSerializer.SerializeToUtf8Bytes(words)));
            }
        }
    }

    /// <summary>The state with that in it, but for what was sealed with a key that was destroyed since.</summary>
    public Register Open(KeyStore keys)
    {
        Register register = Bare;
        foreach ((string job, string seal) in Personal)
        {
            if (keys.Open(job, seal) is { } clear)
            {
                register = job == KeyStore.OfNoJob ? With(register, JsonSerializer.Deserialize<TapWords[]>(clear)!)
                    : JsonSerializer.Deserialize<Words>(clear) is { IsEmpty: false } words ? With(register, job, words)
                    : register;
            }
        }

        return register;
    }

    private static Register With(Register register, TapWords[] words) => words.Length == 0 ? register : register with
    {
        Shop = register.Shop! with { Planned = [.. register.Shop.Planned.Zip(words, (w, said) => w with { By = said.By, Note = said.Note })] },
    };

    private static Words WordsOf(Register register, string id)
    {
        JobMarks marks = register.Jobs[id];
        IEnumerable<Tap> told = register.Shop?.Find(id)?.Told ?? [];
        return new Words(marks.Car, marks.HandedOver?.By, marks.HandedOver?.Despite, [.. told.Select(t => new TapWords(t.By, t.Note))])
        {
            Photos = [.. marks.Photos.Select(p => new PhotoWords(p.Photo.By, p.Removed?.By))],
        };
    }

    private static Register With(Register register, string id, Words words)
    {
        JobMarks marks = register.Jobs[id];
        (DateTimeOffset At, string? By, string? Despite)? left = marks.HandedOver is { } handed
            ? (handed.At, words.By, handed.Despite is null ? null : words.Despite ?? "")
            : null;
        KeptPhoto[] photos = [.. marks.Photos.Select((p, i) => With(p, words.OfPhoto(i)))];
        return register with
        {
            Jobs = register.Jobs.SetItem(id, marks with { Car = words.Car, HandedOver = left, Photos = [.. photos] }),
            Shop = register.Shop is { } shop && shop.Find(id) is { } job ? shop with { Jobs = shop.Jobs.SetItem(id, With(job, words)) } : register.Shop,
        };
    }

    private static KeptPhoto With(KeptPhoto kept, PhotoWords said) =>
        kept with { Photo = kept.Photo with { By = said.By }, Removed = kept.Removed is { } removed ? (removed.At, said.RemovedBy) : null };

    /// <summary>The stories hold taps too, so they are told once more.</summary>
    private static JobState With(JobState state, Words words)
    {
        Job job = state.Job with { Car = words.Car };
        ImmutableArray<Tap> told = [.. state.Told.Select((t, i) => t with { By = words.OfTap(i).By, Note = words.OfTap(i).Note })];
        Dictionary<string, SurfaceStory> stories = job.Surfaces.ToDictionary(s => s.Id, s => Taps.Story(s, told));
        return state with
        {
            Job = job,
            Told = told,
            Stories = [.. job.Surfaces.Select(s => stories[s.Id])],
            Watched = [.. state.Watched.Select(w => w with { Story = stories[w.Story.Surface.Id] })],
        };
    }

    /// <summary>What names a person in what is known of a job.</summary>
    private sealed record Words(string? Car, string? By, string? Despite, IReadOnlyList<TapWords> Taps)
    {
        public static Words None { get; } = new(null, null, null, []);

        public bool IsEmpty => Car is null && By is null && string.IsNullOrEmpty(Despite) && Taps.All(t => t == TapWords.None) && Photos.All(p => p == PhotoWords.None);

        public IReadOnlyList<PhotoWords> Photos { get; init; } = [];

        public TapWords OfTap(int index) => index < Taps.Count ? Taps[index] : TapWords.None;

        public PhotoWords OfPhoto(int index) => index < Photos.Count ? Photos[index] : PhotoWords.None;
    }

    private sealed record PhotoWords(string? By, string? RemovedBy)
    {
        public static PhotoWords None { get; } = new(null, null);
    }

    private sealed record TapWords(string? By, string? Note)
    {
        public static TapWords None { get; } = new(null, null);
    }
}
