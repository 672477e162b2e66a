using System.Buffers;
using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Service.Journal;

/// <summary>Turns entries into the payloads of frames and back. Readings are packed; what is rare is JSON.</summary>
/// <remarks>What names a person (car, by, note) is sealed with a key of its job before it is written.</remarks>
internal sealed class EntryCodec(KeyStore keys)
{
    /// <summary>The form of every payload but a numbered reading's.</summary>
    private const byte Version = 1;

    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { DemandWhatIsAlwaysWritten } },
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    /// <summary>The form an entry's payload is written in: the oldest that holds it, so that a program from before reads on as far as it can.</summary>
    public static byte VersionOf(Entry entry) => entry is Entry.Reading { Sequence: not null } ? PackedReading.NumberedVersion : Version;

    /// <summary>Appends an entry's payload.</summary>
    /// <returns>The kind its frame has to carry.</returns>
    public EntryKind Write(Entry entry, IBufferWriter<byte> payload)
    {
        switch (entry)
        {
            case Entry.Reading e:
                PackedReading.Write(e, payload);
                return EntryKind.Reading;
            case Entry.ClockReached:
                return EntryKind.ClockReached;
            case Entry.EngineStarted e:
                return WriteJson(EntryKind.EngineStarted, e, payload);
            case Entry.RefusalsCounted e:
                return WriteJson(EntryKind.RefusalsCounted, e, payload);
            case Entry.SettingsChanged e:
                return WriteJson(EntryKind.SettingsChanged, e, payload);
            case Entry.JobStarted e:
                Job bare = e.Job with { Car = null };
                return WriteJson(EntryKind.JobStarted, new SealedJob(bare, e.Pins, Seal(e.Job.Id, new Personal(Car: e.Job.Car))), payload);
            case Entry.Tapped e:
                Tap silent = e.Tap with { By = null, Note = null };
                return WriteJson(
                    EntryKind.Tapped, new SealedTap(e.Job, silent, Seal(e.Job, new Personal(By: e.Tap.By, Note: e.Tap.Note))), payload);
            case Entry.HandedOver e:
                return WriteJson(
                    EntryKind.HandedOver,
                    new SealedHandover(e.Job, e.Despite is not null, Seal(e.Job, new Personal(By: e.By, Note: e.Despite))),
                    payload);
            case Entry.LearningReset e:
                return WriteJson(
                    EntryKind.LearningReset,
                    new SealedReset(e.Product, e.Bay, Seal(KeyStore.OfNoJob, new Personal(By: e.By, Note: e.Note))),
                    payload);
            case Entry.WorkPlanned e:
                PlannedWork plain = e.Work with { By = null, Note = null };
                return WriteJson(
                    EntryKind.WorkPlanned, new SealedWork(plain, Seal(KeyStore.OfNoJob, new Personal(By: e.Work.By, Note: e.Work.Note))), payload);
            case Entry.WorkDropped e:
                return WriteJson(EntryKind.WorkDropped, new SealedDrop(e.Id, Seal(KeyStore.OfNoJob, new Personal(By: e.By, Note: e.Note))), payload);
            case Entry.VisitPlanned e:
                return WriteJson(EntryKind.VisitPlanned, new SealedVisit(e.Job, e.Visit, Seal(e.Job, new Personal(By: e.By, Note: e.Note))), payload);
            case Entry.VisitCancelled e:
                return WriteJson(EntryKind.VisitCancelled, new SealedCancel(e.Job, Seal(e.Job, new Personal(By: e.By, Note: e.Note))), payload);
            case Entry.PhotoAdded e:
                Photo anonymous = e.Photo with { By = null };
                return WriteJson(EntryKind.PhotoAdded, new SealedPhoto(e.Job, anonymous, Seal(e.Job, new Personal(By: e.Photo.By))), payload);
            case Entry.PhotoRemoved e:
                return WriteJson(EntryKind.PhotoRemoved, new SealedRemoval(e.Job, e.Photo, Seal(e.Job, new Personal(By: e.By))), payload);
            case Entry.WarningChanged e:
                return WriteJson(EntryKind.WarningChanged, e, payload);
            case Entry.Ruled e:
                return WriteJson(EntryKind.Ruled, e, payload);
            case Entry.SegmentSealed e:
                return WriteJson(EntryKind.SegmentSealed, e, payload);
            default:
                throw new UnreachableException(entry.GetType().Name);
        }
    }

    /// <summary>Reads a frame's entry.</summary>
    /// <exception cref="InvalidDataException">This program does not know that kind or form of entry.</exception>
    public Entry Read(in Frame frame)
    {
        bool isNumbered = frame is { Kind: EntryKind.Reading, Version: PackedReading.NumberedVersion };
        if (frame.Version != Version && !isNumbered)
        {
            throw Unknown(frame, null);
        }

        ReadOnlySpan<byte> payload = frame.Payload.Span;
        try
        {
            return frame.Kind switch
            {
                EntryKind.Reading => PackedReading.Read(payload, isNumbered),
                EntryKind.ClockReached => new Entry.ClockReached(),
                EntryKind.EngineStarted => ReadJson<Entry.EngineStarted>(payload),
                EntryKind.RefusalsCounted => ReadJson<Entry.RefusalsCounted>(payload),
                EntryKind.SettingsChanged => ReadJson<Entry.SettingsChanged>(payload),
                EntryKind.JobStarted => Unsealed(ReadJson<SealedJob>(payload)),
                EntryKind.Tapped => Unsealed(ReadJson<SealedTap>(payload)),
                EntryKind.HandedOver => Unsealed(ReadJson<SealedHandover>(payload)),
                EntryKind.LearningReset => Unsealed(ReadJson<SealedReset>(payload)),
                EntryKind.WorkPlanned => Unsealed(ReadJson<SealedWork>(payload)),
                EntryKind.WorkDropped => Unsealed(ReadJson<SealedDrop>(payload)),
                EntryKind.VisitPlanned => Unsealed(ReadJson<SealedVisit>(payload)),
                EntryKind.VisitCancelled => Unsealed(ReadJson<SealedCancel>(payload)),
                EntryKind.PhotoAdded => Unsealed(ReadJson<SealedPhoto>(payload)),
                EntryKind.PhotoRemoved => Unsealed(ReadJson<SealedRemoval>(payload)),
                EntryKind.WarningChanged => ReadJson<Entry.WarningChanged>(payload),
                EntryKind.Ruled => ReadJson<Entry.Ruled>(payload),
                EntryKind.SegmentSealed => ReadJson<Entry.SegmentSealed>(payload),
                EntryKind.JournalClosed => new Entry.JournalClosed(),
                _ => throw Unknown(frame, null),
            };
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            throw Unknown(frame, e);
        }
    }

    /// <returns>The seal a frame holds, which needs no key; null where it holds none.</returns>
    public static Entry.SegmentSealed? FindSeal(in Frame frame)
    {
        try
        {
            return ReadJson<Entry.SegmentSealed>(frame.Payload.Span);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Only what is null is left out when an entry is written; what else is missing makes another entry of it.</summary>
    private static void DemandWhatIsAlwaysWritten(JsonTypeInfo type)
    {
        foreach (JsonPropertyInfo property in type.Properties)
        {
            property.IsRequired = property.AssociatedParameter is { IsNullable: false, HasDefaultValue: false };
        }
    }

    private static EntryKind WriteJson<T>(EntryKind kind, T value, IBufferWriter<byte> payload)
    {
        using var json = new Utf8JsonWriter(payload);
        JsonSerializer.Serialize(json, value, Form);
        return kind;
    }

    private static T ReadJson<T>(ReadOnlySpan<byte> payload) =>
        JsonSerializer.Deserialize<T>(payload, Form) ?? throw new JsonException("null");

    private static InvalidDataException Unknown(in Frame frame, Exception? inner) =>
        new($"Frame {frame.Sequence} holds kind {(byte)frame.Kind}, version {frame.Version}, which this program cannot read.", inner);

    private string? Seal(string job, Personal personal) =>
        personal == Personal.Nothing ? null : keys.Of(job).Seal(JsonSerializer.SerializeToUtf8Bytes(personal, Form));

    /// <summary>Nothing where nothing was sealed, or where the key was destroyed; who told something later under the same job did so with another.</summary>
    private Personal Open(string job, string? seal) => seal is not null && keys.Open(job, seal) is { } clear ? ReadJson<Personal>(clear) : Personal.Nothing;

    private Entry.JobStarted Unsealed(SealedJob stored) =>
        new(stored.Job with { Car = Open(stored.Job.Id, stored.Personal).Car }, stored.Pins);

    private Entry.Tapped Unsealed(SealedTap stored)
    {
        Personal personal = Open(stored.Job, stored.Personal);
        return new Entry.Tapped(stored.Job, stored.Tap with { By = personal.By, Note = personal.Note });
    }

    private Entry.HandedOver Unsealed(SealedHandover stored)
    {
        Personal personal = Open(stored.Job, stored.Personal);
        return new Entry.HandedOver(stored.Job, personal.By, stored.IsDespite ? personal.Note ?? "" : null);
    }

    private Entry.LearningReset Unsealed(SealedReset stored)
    {
        Personal personal = Open(KeyStore.OfNoJob, stored.Personal);
        return new Entry.LearningReset(stored.Product, stored.Bay, personal.By, personal.Note);
    }

    private Entry.WorkPlanned Unsealed(SealedWork stored)
    {
        Personal personal = Open(KeyStore.OfNoJob, stored.Personal);
        return new Entry.WorkPlanned(stored.Work with { By = personal.By, Note = personal.Note });
    }

    private Entry.WorkDropped Unsealed(SealedDrop stored)
    {
        Personal personal = Open(KeyStore.OfNoJob, stored.Personal);
        return new Entry.WorkDropped(stored.Id, personal.By, personal.Note);
    }

    private Entry.VisitPlanned Unsealed(SealedVisit stored)
    {
        Personal personal = Open(stored.Job, stored.Personal);
        return new Entry.VisitPlanned(stored.Job, stored.Visit, personal.By, personal.Note);
    }

    private Entry.PhotoAdded Unsealed(SealedPhoto stored) => new(stored.Job, stored.Photo with { By = Open(stored.Job, stored.Personal).By });

    private Entry.PhotoRemoved Unsealed(SealedRemoval stored) => new(stored.Job, stored.Photo, Open(stored.Job, stored.Personal).By);

    private Entry.VisitCancelled Unsealed(SealedCancel stored)
    {
        Personal personal = Open(stored.Job, stored.Personal);
        return new Entry.VisitCancelled(stored.Job, personal.By, personal.Note);
    }
}
