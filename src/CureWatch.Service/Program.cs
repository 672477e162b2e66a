using CureWatch.Service.Commands;

return CommandLine.Run(args);
