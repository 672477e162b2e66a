using CureWatch.Fuzz;

return args switch
{
    ["instrument", string assembly] => Instrument.Assembly(assembly),
    ["seeds", string target, string folder, string words] => Corpus.Write(target, folder, words),
    ["again", string target, .. string[] inputs] => Again.Take(target, inputs),
    [string target] => Afl.Run(target),
    _ => Usage.Say(),
};
