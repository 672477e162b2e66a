using System.Reflection;
using System.Runtime.CompilerServices;
using CureWatch.Units;

namespace CureWatch.Tests.Rules;

public class LibraryTests
{
    private static readonly Assembly Library = typeof(Celsius).Assembly;

    [Fact]
    public void Library_LoadsOnlySystemAssemblies() => Assert.All(
        Library.GetReferencedAssemblies(), r => Assert.StartsWith("System.", r.Name, StringComparison.Ordinal));

    [Fact]
    public void PublicProperty_CannotBeSet() => Assert.Empty(
        from type in Library.GetTypes()
        from property in type.GetProperties()
        where property.GetSetMethod() is { } setter && !IsInit(setter)
        select $"{type}.{property.Name}");

    [Fact]
    public void PublicField_CannotBeSet() => Assert.Empty(
        from type in Library.GetTypes()
        where !type.IsDefined(typeof(CompilerGeneratedAttribute)) && !type.IsEnum
        from field in type.GetFields()
        where !field.IsInitOnly && !field.IsLiteral
        select $"{type}.{field.Name}");

    private static bool IsInit(MethodInfo setter) =>
        setter.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));
}
