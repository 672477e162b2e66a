using System.Globalization;
using CureWatch.Service.Settings;
using Microsoft.Extensions.Primitives;

namespace CureWatch.Service.Api;

/// <summary>
/// What a request asks for behind its question mark. A parameter nobody knows is a fault: misspelt, it would give another answer than was
/// asked for, and nobody would notice.
/// </summary>
internal sealed class Parameters
{
    private const string Where = "query";

    private readonly IQueryCollection _query;
    private readonly Faults _faults = new();

    /// <param name="request">The request.</param>
    /// <param name="known">The parameters there are.</param>
    public Parameters(HttpRequest request, params string[] known)
    {
        _query = request.Query;
        foreach ((string name, StringValues values) in _query)
        {
            if (!known.Contains(name))
            {
                _faults.Add(Where, name, $"{values}", $"only {string.Join(", ", known)}");
            }
            else if (values.Count > 1)
            {
                _faults.Add(Where, name, $"{values}", "one of each");
            }
        }
    }

    /// <returns>The problem that names every fault; null where there is none.</returns>
    public IResult? Problem => _faults.Count > 0 ? Api.Problem.Faulty([.. _faults.All]) : null;

    public DateTimeOffset? Instant(string name)
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        if (Instants.TryParse(text, out DateTimeOffset instant))
        {
            return instant;
        }

        // In an address a plus sign stands for a space, and by the time it is read here nobody can tell the two apart.
        _faults.Add(Where, name, text, text.Contains(' ', StringComparison.Ordinal) ? $"{Instants.Allowed}; write + as %2B" : Instants.Allowed);
        return null;
    }

    public int? Whole(string name, int least, int most)
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= least && number <= most)
        {
            return number;
        }

        _faults.Add(Where, name, text, $"a whole number from {least} to {most}");
        return null;
    }

    /// <summary>One of some names.</summary>
    public string? OneOf(string name, IEnumerable<string> allowed, bool isNeeded = false)
    {
        string? text = Text(name);
        if (text is null ? !isNeeded || _query.ContainsKey(name) : allowed.Contains(text))
        {
            return text;
        }

        Refuse(name, string.Join(" | ", allowed));
        return null;
    }

    /// <summary>One of the names of an enum.</summary>
    public T? OneOf<T>(string name, bool isNeeded)
        where T : struct, Enum =>
        OneOf(name, Enum.GetValues<T>().Select(WireName<T>.Of), isNeeded) is { } text ? WireName<T>.Find(text) : null;

    /// <summary>Refuses what was asked for.</summary>
    public void Refuse(string name, string allowed) => _faults.Add(Where, name, Text(name) ?? "nothing", allowed);

    /// <summary>Where a page before ended.</summary>
    public long? Before(string name)
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        if (long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long number))
        {
            return number;
        }

        _faults.Add(Where, name, text, "what 'next' said on the page before");
        return null;
    }

    /// <summary>Refuses a stretch that ends before it begins.</summary>
    public void InOrder(string from, DateTimeOffset start, string to, DateTimeOffset end)
    {
        if (start > end)
        {
            _faults.Add(Where, from, Text(from) ?? "nothing", $"an instant that is not after '{to}'");
        }
    }

    private string? Text(string name) => _query.TryGetValue(name, out StringValues values) && values is [{ } only] ? only : null;
}
