using System.Reflection;
using System.Reflection.Emit;

namespace CureWatch.Tests.Rules;

/// <summary>Every type that a type's members and method bodies speak of; constants leave no trace in a body.</summary>
internal static class UsedTypes
{
    private const BindingFlags Own =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private const byte TwoByteCode = 0xFE;

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes)
        .GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (OpCode)f.GetValue(null)!).ToDictionary(c => c.Value);

    public static IEnumerable<Type> Of(Type type)
    {
        IEnumerable<Type?> used = [type.BaseType, .. type.GetInterfaces(), .. type.GetFields(Own).Select(f => f.FieldType)];
        IEnumerable<MethodBase> methods = [.. type.GetMethods(Own), .. type.GetConstructors(Own)];
        return used.Concat(methods.SelectMany(OfSignature)).Concat(methods.SelectMany(OfBody)).OfType<Type>().SelectMany(Parts).Distinct();
    }

    private static IEnumerable<Type?> OfSignature(MethodBase method) =>
        [(method as MethodInfo)?.ReturnType, .. method.GetParameters().Select(p => p.ParameterType)];

    private static IEnumerable<Type?> OfBody(MethodBase method)
    {
        if (method.GetMethodBody() is not { } body || body.GetILAsByteArray() is not { } il)
        {
            return [];
        }

        IEnumerable<MemberInfo?> named = Tokens(il).Select(token => method.Module.ResolveMember(
            token, method.DeclaringType!.GetGenericArguments(), method.IsGenericMethod ? method.GetGenericArguments() : []));
        return body.LocalVariables.Select(l => l.LocalType).Concat(named.SelectMany(OfMember));
    }

    private static IEnumerable<Type?> OfMember(MemberInfo? member) => member switch
    {
        Type type => [type],
        FieldInfo field => [field.DeclaringType, field.FieldType],
        MethodBase method => [method.DeclaringType, .. OfSignature(method), .. method.IsGenericMethod ? method.GetGenericArguments() : []],
        _ => [],
    };

    private static IEnumerable<int> Tokens(byte[] il)
    {
        for (int at = 0; at < il.Length;)
        {
            OpCode code = il[at] == TwoByteCode ? Codes[(short)((TwoByteCode << 8) | il[at + 1])] : Codes[il[at]];
            at += code.Size;
            if (code.OperandType is OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType)
            {
                yield return BitConverter.ToInt32(il, at);
            }

            at += OperandSize(code.OperandType, il, at);
        }
    }

    private static int OperandSize(OperandType kind, byte[] il, int at) => kind switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(il, at)),
        _ => 4,
    };

    private static IEnumerable<Type> Parts(Type type)
    {
        if (type.HasElementType)
        {
            return Parts(type.GetElementType()!);
        }

        return type.IsGenericType ? [type, .. type.GetGenericArguments().SelectMany(Parts)] : [type];
    }
}
