using System.CommandLine;
using CureWatch.Products;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>fit</c>: what a product sheet's rows say about its rate laws, and how surely.</summary>
internal static class FitCommand
{
    public static Command Create()
    {
        var product = new Option<string>("--product") { Description = "a product sheet's file", HelpName = "file", Required = true };
        Option<bool> json = JsonOption.Create();
        var command = new Command("fit", "The rate law fitted to a product sheet, with its uncertainty and residuals.") { product, json };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            if (ProductFile.Read(parsed.GetValue(product)!, faults) is { } sheet)
            {
                Answer(SheetFit.Of(sheet), parsed.GetValue(json), parsed.InvocationConfiguration.Output);
                return ExitCode.Done;
            }

            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        });
        return command;
    }

    private static void Answer(SheetFit fit, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => FitJson.Write(json, fit));
        }
        else
        {
            output.WriteLine(FitText.Of(fit));
        }
    }
}
