using System.Text.RegularExpressions;

namespace CureWatch.Service.Settings;

/// <summary>What the variables of the environment say at a place of <c>curewatch.json</c>, and below it.</summary>
internal sealed partial class ServiceOverlay(ServiceKeys keys)
{
    private readonly SortedDictionary<string, ServiceOverlay> _below = new(PlaceOrder);

    /// <summary>What is known of the place.</summary>
    public ServiceKeys Keys => keys;

    /// <summary>The variable for this very place; null where there is none.</summary>
    public ServiceVariable? Variable { get; private set; }

    /// <summary>Set where the file says nothing of this place, so that only a variable can mend it.</summary>
    public bool IsNew { get; set; }

    /// <summary>The places below with something to say, indices by number.</summary>
    public IReadOnlyDictionary<string, ServiceOverlay> Below => _below;

    private static Comparer<string> PlaceOrder => Comparer<string>.Create((a, b) =>
        a.Length != b.Length && Index().IsMatch(a) && Index().IsMatch(b) ? a.Length - b.Length : string.CompareOrdinal(a, b));

    /// <returns>What all the variables say together.</returns>
    public static ServiceOverlay Of(IEnumerable<ServiceVariable> variables, Faults faults)
    {
        var top = new ServiceOverlay(ServiceKeys.All);
        foreach (ServiceVariable variable in variables)
        {
            top.Take(variable, 0, faults);
        }

        return top;
    }

    /// <summary>Leaves a key to the file.</summary>
    public void Forget(string key) => _below.Remove(key);

    /// <returns>Whether the variable has a place here or below.</returns>
    private bool Take(ServiceVariable variable, int depth, Faults faults)
    {
        string[] names = variable.Keys;
        if (depth == names.Length)
        {
            return TakeHere(variable, faults);
        }

        string? key = keys switch
        {
            ServiceKeys.Section section => section.Keys.Select(k => k.Key)
                .FirstOrDefault(k => k.Equals(names[depth], StringComparison.OrdinalIgnoreCase)),
            ServiceKeys.Entries => Index().IsMatch(names[depth]) ? names[depth] : null,
            _ => null,
        };
        if (key is null)
        {
            faults.Add(ServiceVariable.File, variable.Name, $"the key {names[depth]}", Allowed(names[..depth]));
            return false;
        }

        ServiceOverlay below = _below.GetValueOrDefault(key) ?? new ServiceOverlay(KeysBelow(key));
        if (!below.Take(variable, depth + 1, faults))
        {
            return false;
        }

        _below[key] = below;
        return true;
    }

    private bool TakeHere(ServiceVariable variable, Faults faults)
    {
        if (keys is ServiceKeys.Section or ServiceKeys.Entries)
        {
            faults.Add(ServiceVariable.File, variable.Name, "a value", Allowed(variable.Keys));
            return false;
        }

        if (Variable is not null)
        {
            faults.Add(ServiceVariable.File, variable.Name, $"the same key as in {Variable.Name}", "each key once, in capitals or not");
            return false;
        }

        Variable = variable;
        return true;
    }

    private ServiceKeys KeysBelow(string key) =>
        keys is ServiceKeys.Section section ? section.Keys.First(k => k.Key == key).Below : ((ServiceKeys.Entries)keys).Entry;

    private string Allowed(string[] above) => keys switch
    {
        ServiceKeys.Section section => string.Join(", ", section.Keys.Select(k => ServiceVariable.NameOf([.. above, k.Key]))),
        ServiceKeys.Entries => $"{ServiceVariable.NameOf([.. above, "0"])} for the first entry, and so on",
        _ => ServiceVariable.NameOf(above),
    };

    [GeneratedRegex(@"\A(0|[1-9][0-9]{0,3})\z")]
    private static partial Regex Index();
}
