using System.Net;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.People;

public class RefusedPeopleTests
{
    [Fact]
    public async Task WhatWasTypedBesideAPin_IsThereAgain_AndThePinIsNot()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using HttpResponseMessage answer = await manager.SendAsync("/people", ("name", "Tom O'Hara"), ("role", "manager"), ("pin", "739"));
        string page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("name=\"name\" value=\"Tom O&#x27;Hara\"", page, StringComparison.Ordinal);
        Assert.Contains("<option value=\"manager\" selected>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("739", page, StringComparison.Ordinal);
        using var screen = new Browser(shop);
        string code = (await screen.TextAsync("/pair")).Split("/pair/")[1].Split('<')[0];
        string name = new('w', 200);
        using HttpResponseMessage letIn = await manager.SendAsync($"/pair/{code}", ("name", name));
        Assert.Equal(HttpStatusCode.BadRequest, letIn.StatusCode);
        Assert.Contains($"value=\"{name}\"", await letIn.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
