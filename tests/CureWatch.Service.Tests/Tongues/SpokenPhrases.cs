using System.Collections.Frozen;
using System.Reflection.Emit;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using System.Text;

namespace CureWatch.Service.Tests.Tongues;

/// <summary>Reads out of compiled code what it says to people: the templates of its sentences, and the phrases it asks a tongue for.</summary>
internal sealed class SpokenPhrases
{
    private static readonly FrozenDictionary<short, OpCode> OpCodesByValue = typeof(OpCodes).GetFields()
        .Select(f => (OpCode)f.GetValue(null)!).ToFrozenDictionary(o => o.Value);

    private readonly HashSet<string> _said = new(StringComparer.Ordinal);
    private readonly HashSet<string> _texts = new(StringComparer.Ordinal);
    private readonly MetadataReader _metadata;

    private SpokenPhrases(string assembly)
    {
        using var file = new PEReader(File.OpenRead(assembly));
        _metadata = file.GetMetadataReader();
        foreach (MethodDefinitionHandle handle in _metadata.MethodDefinitions)
        {
            if (_metadata.GetMethodDefinition(handle).RelativeVirtualAddress is > 0 and var address)
            {
                Read([.. Instructions(file.GetMethodBody(address).GetILReader())]);
            }
        }
    }

    /// <summary>What is said.</summary>
    public IReadOnlySet<string> Said => _said;

    /// <summary>Every text in the code, whatever it is for: some are said by way of a list.</summary>
    public IReadOnlySet<string> Texts => _texts;

    public static SpokenPhrases Of(System.Reflection.Assembly assembly) => new(assembly.Location);

    private void Read(Instruction[] code)
    {
        var open = new Stack<Template>();
        for (int i = 0; i < code.Length; i++)
        {
            if (code[i].Text is { } text)
            {
                _texts.Add(text);
                if (IsAskedOfATongue(code, i))
                {
                    _said.Add(text);
                }
            }

            switch (Called(code[i]))
            {
                case ("Sentence", ".ctor") when i >= 2 && code[i - 2].Whole is { } literal && code[i - 1].Whole is { } formatted && literal + formatted > 0:
                    open.Push(new Template(literal, formatted));
                    break;
                case ("Sentence", "AppendLiteral") when open.Count > 0 && code[i - 1].Text is { } words:
                    open.Peek().Append(words);
                    break;
                case ("Sentence", "AppendFormatted") when open.Count > 0:
                    open.Peek().AppendPlace();
                    break;
            }

            if (open.Count > 0 && open.Peek().IsWhole)
            {
                _said.Add(open.Pop().ToString());
            }
        }
    }

    /// <summary>Whether the text is what the next instruction, or the one that is jumped to, asks for, or refuses by.</summary>
    private bool IsAskedOfATongue(Instruction[] code, int at)
    {
        int next = at + 1;
        while (next < code.Length && code[next].JumpsTo is { } target)
        {
            next = Array.FindIndex(code, c => c.Offset == target);
        }

        return next >= 0 && next < code.Length && Called(code[next]) is ("Tongue", "get_Item" or "Phrase") or ("JsonCursor", "Refuse" or "String") or ("Refused", ".ctor");
    }

    private (string Type, string Method)? Called(Instruction instruction)
    {
        switch (instruction.Token)
        {
            case { Kind: HandleKind.MemberReference } reference:
                MemberReference member = _metadata.GetMemberReference((MemberReferenceHandle)reference);
                return member.Parent.Kind == HandleKind.TypeReference
                    ? (_metadata.GetString(_metadata.GetTypeReference((TypeReferenceHandle)member.Parent).Name), _metadata.GetString(member.Name))
                    : null;
            case { Kind: HandleKind.MethodDefinition } definition:
                MethodDefinition method = _metadata.GetMethodDefinition((MethodDefinitionHandle)definition);
                return (_metadata.GetString(_metadata.GetTypeDefinition(method.GetDeclaringType()).Name), _metadata.GetString(method.Name));
            default:
                return null;
        }
    }

    private List<Instruction> Instructions(BlobReader il)
    {
        var all = new List<Instruction>();
        while (il.RemainingBytes > 0)
        {
            int offset = il.Offset;
            byte first = il.ReadByte();
            OpCode code = OpCodesByValue[first == 0xFE ? (short)((first << 8) | il.ReadByte()) : first];
            all.Add(code.OperandType switch
            {
                OperandType.InlineString => new Instruction(offset) { Text = _metadata.GetUserString((UserStringHandle)MetadataTokens.Handle(il.ReadInt32())) },
                OperandType.InlineMethod => new Instruction(offset) { Token = MetadataTokens.EntityHandle(il.ReadInt32()) },
                OperandType.InlineI => new Instruction(offset) { Whole = il.ReadInt32() },
                OperandType.ShortInlineI => new Instruction(offset) { Whole = il.ReadSByte() },
                OperandType.ShortInlineBrTarget => Jump(offset, code, il.ReadSByte(), il.Offset),
                OperandType.InlineBrTarget => Jump(offset, code, il.ReadInt32(), il.Offset),
                OperandType.InlineNone => new Instruction(offset) { Whole = code.Value - OpCodes.Ldc_I4_0.Value is >= 0 and <= 8 and var whole ? whole : null },
                OperandType.InlineI8 or OperandType.InlineR => Skip(ref il, offset, sizeof(long)),
                OperandType.ShortInlineVar => Skip(ref il, offset, sizeof(byte)),
                OperandType.InlineVar => Skip(ref il, offset, sizeof(short)),
                OperandType.InlineSwitch => Skip(ref il, offset, sizeof(int) * il.ReadInt32()),
                _ => Skip(ref il, offset, sizeof(int)),
            });
        }

        return all;
    }

    private static Instruction Jump(int offset, OpCode code, int by, int next) =>
        new(offset) { JumpsTo = code == OpCodes.Br || code == OpCodes.Br_S ? next + by : null };

    private static Instruction Skip(ref BlobReader il, int offset, int bytes)
    {
        il.Offset += bytes;
        return new Instruction(offset);
    }

    private sealed record Instruction(int Offset)
    {
        public string? Text { get; init; }

        public EntityHandle? Token { get; init; }

        public int? Whole { get; init; }

        public int? JumpsTo { get; init; }
    }

    private sealed class Template(int literal, int formatted)
    {
        private readonly StringBuilder _text = new();
        private int _literal;
        private int _formatted;

        public bool IsWhole => _literal == literal && _formatted == formatted;

        public void Append(string words)
        {
            _text.Append(words);
            _literal += words.Length;
        }

        public void AppendPlace() => _text.Append('{').Append(_formatted++).Append('}');

        public override string ToString() => _text.ToString();
    }
}
