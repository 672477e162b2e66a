namespace CureWatch.Service.Pump;

/// <summary>The newest state that is on disk, for everyone who only reads. The pump alone writes it.</summary>
internal sealed class Latest
{
    private volatile Register _register = Register.Blank;

    public Register Register
    {
        get => _register;
        set => _register = value;
    }
}
