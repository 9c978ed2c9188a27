using System.Globalization;
using PlateTickets.Web.Startup.Commands;

namespace PlateTickets.Web.Tests;

public sealed class CommandsTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(false, "--room", "empty")]
    [InlineData(false, "--urls=http://localhost:1")]
    [InlineData(false, "Room:Start=Empty")]
    [InlineData(false, "/Room:Start=Empty")]
    [InlineData(true, "status")]
    [InlineData(true, "frobnicate")]
    [InlineData(true, "--help")]
    public void FirstArgument_TellsACommandFromTheWebProgram(bool command, params string[] args) => Assert.Equal(command, RoomCommands.Asked(args));

    [Theory]
    [InlineData("'frobnicate'", "frobnicate")]
    [InlineData("'extra'", "status", "extra")]
    [InlineData("'--frob'", "backup", "--frob", "x")]
    [InlineData("Required command was not provided", "audit")]
    [InlineData("Required argument missing", "restore")]
    [InlineData("'--count'", "audit", "verify", "--count", "many")]
    [InlineData("together", "audit", "verify", "--count", "3")]
    [InlineData("64 hexadecimal digits", "audit", "verify", "--count", "3", "--head", "xyz")]
    [InlineData("There is no room in", "status", "--data", "/nowhere/at/all")]
    [InlineData("There is no folder", "check", "/nowhere/at/all")]
    public async Task WhatIsWrong_IsSaid_AndEndsWith1(string sentence, params string[] args)
    {
        var (code, output, errors) = await RunAsync(args);
        Assert.Equal(1, code);
        Assert.Contains(sentence, errors + output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task UnknownCommand_ListsTheCommands()
    {
        var (_, output, _) = await RunAsync("frobnicate");
        Assert.All(new[] { "status", "audit", "backup", "check", "restore" }, c => Assert.Contains($"  {c}", output, StringComparison.Ordinal));
    }

    [Fact]
    public void Settings_AreToldFromWords()
    {
        var (settings, words) = SettingArguments.Split(["backup", "--data", "a b", "--to", "c", "--Backup:Keep=3", "--Room:TimeZone", "UTC", "--urls=x"]);
        Assert.Equal(["--data", "a b", "--Backup:Keep=3", "--Room:TimeZone", "UTC", "--urls=x"], settings);
        Assert.Equal(["backup", "--to", "c"], words);
    }

    private static async Task<(int Code, string Output, string Errors)> RunAsync(params string[] args)
    {
        await using StringWriter output = new(CultureInfo.InvariantCulture), errors = new(CultureInfo.InvariantCulture);
        return (await RoomCommands.RunAsync(args, output, errors), output.ToString(), errors.ToString());
    }
}
