using System.Globalization;
using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Where the manager says who may sign in, and signs out what should not be.</summary>
internal static class PeoplePages
{
    private const string Path = "/people";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (Staff staff, Visitor visitor, Lookout lookout) => Show(staff, visitor, lookout, [], RefusedForm.None)).ExcludeFromDescription().LetsManagers();
        MapChange(app, Path, Add);
        MapChange(app, $"{Path}/pin", ChangePin);
        MapChange(app, $"{Path}/remove", Remove);
        MapChange(app, $"{Path}/sign-out", SignOut);
    }

    private static void MapChange(IEndpointRouteBuilder app, string path, Func<IFormCollection, StaffList, Pins, Change> change) => app
        .MapPost(path, async (HttpContext context, Staff staff, Pins pins, Visitor visitor, Lookout lookout, ILogger<Staff> log) =>
        {
            if (await BoardForms.FormAsync(context) is not { } form)
            {
                return BoardForms.NoForm();
            }

            Sentence? fault = null;
            string what = "";
            staff.Change(list =>
            {
                (StaffList changed, what, fault) = change(form, list, pins);
                return changed;
            });
            if (fault is not null)
            {
                return Show(staff, visitor, lookout, [fault], RefusedForm.Of(path, form), StatusCodes.Status400BadRequest);
            }

            People.Log.StaffChanged(log, visitor.Name, what);
            return BoardForms.SeeOther(context, Path);
        }).ExcludeFromDescription().LetsManagers();

    private static Change Add(IFormCollection form, StaffList list, Pins pins)
    {
        string name = form["name"].ToString().Trim();
        string pin = form["pin"].ToString().Trim();
        Role role = form["role"] == "manager" ? Role.Manager : Role.Technician;
        Sentence? fault = list.Find(name) is not null ? $"{name} is on the list already" : Names.Lack(name) ?? Pins.Lack(role, pin);
        return fault is null ? new Change(list.With(new Person(name, role, pins.Hash(pin))), $"{name} is on the list", null) : Change.Not(list, fault);
    }

    private static Change ChangePin(IFormCollection form, StaffList list, Pins pins)
    {
        string pin = form["pin"].ToString().Trim();
        if (list.Find(form["name"].ToString()) is not { } person)
        {
            return Change.Not(list, $"nobody of that name is on the list");
        }

        return Pins.Lack(person.Role, pin) is { } lack
            ? Change.Not(list, lack)
            : new Change(list.With(person with { PinHash = pins.Hash(pin) }), $"{person.Name} has a new PIN, and is signed out", null);
    }

    private static Change Remove(IFormCollection form, StaffList list, Pins pins)
    {
        if (list.Find(form["name"].ToString()) is not { } person)
        {
            return Change.Not(list, $"nobody of that name is on the list");
        }

        StaffList left = list.Without(person.Name);
        return left.HasManager ? new Change(left, $"{person.Name} is off the list", null) : Change.Not(list, $"the last manager stays: put another on the list first");
    }

    private static Change SignOut(IFormCollection form, StaffList list, Pins pins) => new(list.SignedOut(form["id"].ToString()), "a device is signed out", null);

    private static IResult Show(Staff staff, Visitor visitor, Lookout lookout, IReadOnlyList<Sentence> faults, RefusedForm refused, int status = StatusCodes.Status200OK) =>
        BoardEndpoints.With(lookout, look =>
        {
            TimeZoneInfo zone = look.Shop.Plan.Hours.Zone;
            string On(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
            IEnumerable<DeviceView> devices = staff.List.SignedIn.Where(s => s.Until > look.At).OrderByDescending(s => s.Since)
                .Select(s => new DeviceView(s.Id, s.Name, WordOf(s.Role), s.From, On(s.Since), On(s.Until), s.Id == visitor.SignedIn?.Id));
            IEnumerable<(string, string)> people = staff.List.People.Select(p => (p.Name, WordOf(p.Role)));
            return new Page<PeoplePage>(status, (nameof(PeoplePage.View), new PeopleView(look.Shop.Plan.Shop, [.. people], [.. devices], faults, refused)));
        });

    private static string WordOf(Role role) => role.ToString().ToLowerInvariant();

    /// <summary>What becomes of the list, and what of that is logged; or why nothing does.</summary>
    private readonly record struct Change(StaffList List, string What, Sentence? Fault)
    {
        public static Change Not(StaffList list, Sentence fault) => new(list, "", fault);
    }
}
