namespace CureWatch.Panels;

/// <summary>What a surface is made of.</summary>
public enum Material
{
    /// <summary>Sheet steel.</summary>
    Steel,

    /// <summary>Sheet aluminium.</summary>
    Aluminium,

    /// <summary>Cast metal, such as a wheel.</summary>
    Casting,

    /// <summary>Fibre-reinforced plastic.</summary>
    Composite,

    /// <summary>Glass.</summary>
    Glass,

    /// <summary>Unreinforced plastic, such as a bumper.</summary>
    Plastic,

    /// <summary>Film that lies over another material.</summary>
    Film,

    /// <summary>Textile.</summary>
    Fabric,

    /// <summary>Leather.</summary>
    Leather,

    /// <summary>Rubber.</summary>
    Rubber,
}
