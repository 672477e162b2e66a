using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>One revision of one product's data sheet. A revision never changes its content.</summary>
/// <param name="Product">The product's id.</param>
/// <param name="Revision">The sheet's revision, from 1.</param>
/// <param name="Kind">What the product is made for.</param>
/// <param name="Carrier">What leaves the film while it flashes.</param>
/// <param name="Name">The name people read.</param>
/// <param name="Source">Whose sheet, which revision, which date.</param>
/// <param name="Reference">The climate at which the sheet's times hold, and one reference hour lasts one hour.</param>
/// <param name="Limits">What the sheet asks of the climate.</param>
/// <param name="Stages">The stages the sheet gives times for; a stage that is missing has no window.</param>
/// <param name="Lamp">Lamp bands, if the sheet allows a lamp.</param>
/// <param name="AfterWetting">What a wetting does to keep-dry.</param>
/// <param name="Cautions">What to take care of, in the sheet's own order.</param>
public sealed record ProductSheet(
    string Product,
    int Revision,
    ProductKind Kind,
    Carrier Carrier,
    string Name,
    string Source,
    ReferenceClimate Reference,
    SheetLimits Limits,
    ImmutableArray<SheetStage> Stages,
    ImmutableArray<LampBand> Lamp,
    AfterWetting AfterWetting,
    ImmutableArray<string> Cautions)
{
    /// <summary>Finds what the sheet says about a stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>The stage with its rows, or null where the sheet is silent.</returns>
    public SheetStage? Find(Stage stage) => Stages.FirstOrDefault(s => s.Stage == stage);
}

/// <summary>What a product is made for.</summary>
public enum ProductKind
{
    /// <summary>Painted panels.</summary>
    Paint,

    /// <summary>Glass.</summary>
    Glass,

    /// <summary>Wheels.</summary>
    Wheel,

    /// <summary>Protective film.</summary>
    Film,

    /// <summary>Plastic and rubber trim.</summary>
    Trim,

    /// <summary>Textiles.</summary>
    Fabric,

    /// <summary>Leather.</summary>
    Leather,
}

/// <summary>What leaves the film while it flashes.</summary>
public enum Carrier
{
    /// <summary>Organic solvent: evaporation hardly cares for moisture.</summary>
    Solvent,

    /// <summary>Water: evaporation slows as the air gets moister.</summary>
    Water,
}

/// <summary>What a wetting does to keep-dry, once the surface is dry again.</summary>
public enum AfterWetting
{
    /// <summary>Keep-dry starts again from the moment the surface was dried.</summary>
    Restart,

    /// <summary>Keep-dry goes on as if nothing had happened.</summary>
    Continue,
}
