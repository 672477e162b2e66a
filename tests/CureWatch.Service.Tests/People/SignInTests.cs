using System.Net;
using System.Text.Json;
using CureWatch.Service.People;
using CureWatch.Service.Tests.Api;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.People;

public class SignInTests
{
    [Fact]
    public async Task SetUp_MakesTheFirstManager_OnlyWithTheCode_AndOnlyOnce()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using var browser = new Browser(shop);
        using HttpResponseMessage wrong = await browser.SendAsync("/set-up", ("code", "AAAAA-AAAAA"), ("name", "Eve"), ("pin", Browser.ManagersPin));
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
        using Browser manager = await Browser.OfManagerAsync(shop);
        Assert.True(await manager.IsInAsync());
        string code = shop.Services.GetRequiredService<SetUpCode>().Text;
        using HttpResponseMessage second = await browser.SendAsync("/set-up", ("code", code), ("name", "Eve"), ("pin", Browser.ManagersPin));
        Assert.Equal(HttpStatusCode.BadRequest, second.StatusCode);
        Assert.False(await browser.IsInAsync());
    }

    [Theory]
    [InlineData("technician", "12345")]
    [InlineData("technician", "48261a")]
    [InlineData("technician", "000000")]
    [InlineData("technician", "345678")]
    [InlineData("technician", "987654")]
    [InlineData("manager", "482615")]
    [InlineData("manager", "482615482615482615482")]
    public async Task Pin_ThatAnybodyWouldTry_IsNotTaken(string role, string pin)
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using HttpResponseMessage answer = await manager.SendAsync("/people", ("name", "Tom"), ("role", role), ("pin", pin));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Null(shop.Services.GetRequiredService<Staff>().List.Find("Tom"));
    }

    [Fact]
    public async Task StrangersWhoGuess_LockOutStrangers_AndNobodyWhoSignedInThereBefore()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var stranger = new Browser(shop);
        for (int guess = 0; guess < 5; guess++)
        {
            Assert.Equal(HttpStatusCode.Unauthorized, await stranger.SignInAsync("maeve", $"4826150{guess}"));
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, await stranger.SignInAsync("Maeve", Browser.ManagersPin));
        Assert.Equal(HttpStatusCode.SeeOther, await manager.SignInAsync("Maeve", Browser.ManagersPin));
        shop.Clock.Advance(TimeSpan.FromSeconds(31));
        Assert.Equal(HttpStatusCode.Unauthorized, await stranger.SignInAsync("Maeve", "48261509"));
        shop.Clock.Advance(TimeSpan.FromSeconds(31));
        Assert.Equal(HttpStatusCode.TooManyRequests, await stranger.SignInAsync("Maeve", Browser.ManagersPin)); // twice as long now
        shop.Clock.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal(HttpStatusCode.SeeOther, await stranger.SignInAsync("Maeve", Browser.ManagersPin));
    }

    [Fact]
    public async Task NameOfNobody_IsRefusedLikeAWrongPin_AndLocksOutNobody()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var stranger = new Browser(shop);
        for (int guess = 0; guess < 6; guess++)
        {
            await stranger.SignInAsync("nobody", "482615");
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, await stranger.SignInAsync("Nobody", "482615"));
        Assert.Equal(HttpStatusCode.Unauthorized, await stranger.SignInAsync("Noone", "482615")); // else waits would tell who is on the list
        Assert.Equal(HttpStatusCode.SeeOther, await stranger.SignInAsync("Maeve", Browser.ManagersPin));
    }

    [Fact]
    public async Task StrangersWhoGuessAllAtOnce_GuessNoMoreThanOneAfterTheOther()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var stranger = new Browser(shop);
        HttpStatusCode[] answers = await Task.WhenAll(Enumerable.Range(0, 30).Select(i => stranger.SignInAsync("Maeve", $"482615{i:00}")));
        Assert.InRange(answers.Count(a => a == HttpStatusCode.Unauthorized), 1, 5);
        Assert.Equal(HttpStatusCode.TooManyRequests, answers.Except([HttpStatusCode.Unauthorized]).Single());
    }

    [Fact]
    public async Task PhoneThatTwoShare_IsKnownToBoth()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser phone = await Browser.OfManagerAsync(shop);
        using Browser other = await Browser.OfTechnicianAsync(shop, phone);
        Assert.Equal(HttpStatusCode.SeeOther, await phone.SignInAsync("Tom", Browser.TechniciansPin));
        using var stranger = new Browser(shop);
        for (int guess = 0; guess < 6; guess++)
        {
            await stranger.SignInAsync("Maeve", $"4826150{guess}");
        }

        Assert.Equal(HttpStatusCode.SeeOther, await phone.SignInAsync("Maeve", Browser.ManagersPin));
    }

    [Fact]
    public async Task SignedIn_EndsAfterAWorkingDay_OnSignOut_WithItsPerson_AndAtTheManagersWord()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser tom = await Browser.OfTechnicianAsync(shop, manager);
        Assert.True(await tom.IsInAsync());
        (await tom.SendAsync("/sign-out")).Dispose();
        Assert.False(await tom.IsInAsync());

        await tom.SignInAsync("Tom", Browser.TechniciansPin);
        string id = shop.Services.GetRequiredService<Staff>().List.SignedIn.Single(s => s.Name == "Tom").Id;
        (await manager.SendAsync("/people/sign-out", ("id", id))).Dispose();
        Assert.False(await tom.IsInAsync());

        await tom.SignInAsync("Tom", Browser.TechniciansPin);
        (await manager.SendAsync("/people/pin", ("name", "Tom"), ("pin", "159372"))).Dispose();
        Assert.False(await tom.IsInAsync());
        Assert.Equal(HttpStatusCode.SeeOther, await tom.SignInAsync("Tom", "159372"));

        shop.Clock.Advance(TimeSpan.FromHours(14));
        Assert.False(await tom.IsInAsync());
        Assert.False(await manager.IsInAsync());
    }

    [Fact]
    public async Task Tap_OfOneWhoIsSignedOut_IsRefused_AndNotLedElsewhere()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        (await manager.SendAsync("/sign-out")).Dispose();
        using HttpResponseMessage answer = await manager.SendAsync("/bay/bay-1/jobs/grey-estate/taps", ("did", "dried"));
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        using HttpResponseMessage page = await manager.GetAsync("/bay/bay-1");
        Assert.Equal("/sign-in?then=%2Fbay%2Fbay-1", page.Headers.Location?.ToString());
    }

    [Fact]
    public async Task LastManager_StaysOnTheList()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using HttpResponseMessage answer = await manager.SendAsync("/people/remove", ("name", "Maeve"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.True(await manager.IsInAsync());
    }

    [Theory]
    [InlineData("/plan", "/plan")]
    [InlineData("//evil.example", "/")]
    [InlineData("https://evil.example", "/")]
    [InlineData("/\\evil.example", "/")]
    [InlineData("~/plan", "/")]
    public async Task SignIn_LeadsOn_NowhereElse(string then, string expected)
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using HttpResponseMessage answer = await manager.SendAsync("/sign-in", ("name", "Maeve"), ("pin", Browser.ManagersPin), ("then", then));
        Assert.Equal(expected, answer.Headers.Location?.ToString());
    }

    [Fact]
    public async Task Cookie_IsHiddenFromScripts_AndFromOtherSites()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using HttpResponseMessage answer = await manager.SendAsync("/sign-in", ("name", "Maeve"), ("pin", Browser.ManagersPin));
        Assert.All(answer.Headers.GetValues("Set-Cookie"), cookie =>
        {
            Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        });
    }

    [Theory]
    [InlineData("")]
    [InlineData("\uFEFF")] // a byte order mark: the name of another went through
    public async Task Tap_CarriesWhoIsSignedIn_WhateverItSays(string before)
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser tom = await Browser.OfTechnicianAsync(shop, manager);
        await shop.PassAsync(1);
        (await tom.SendAsync(HttpMethod.Post, "/api/v1/jobs", Asked.Json(Asked.Car))).Dispose();
        string tap = """{"id":"t1","at":"2026-05-04T08:01:00Z","did":"panel-wiped","surface":"bonnet","by":"somebody else"}""";
        using HttpResponseMessage told = await tom.SendAsync(HttpMethod.Post, "/api/v1/jobs/grey-estate/taps", Asked.Json(before + tap));
        Assert.Equal(HttpStatusCode.Created, told.StatusCode);
        JsonElement taps = JsonElement.Parse(await tom.TextAsync("/api/v1/jobs/grey-estate/taps"));
        Assert.Equal("Tom", taps.GetProperty("taps")[0].GetProperty("by").GetString());
    }

    [Fact]
    public async Task Screen_IsLetInOnce_AndOnlyWhereItAsked()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var screen = new Browser(shop);
        string code = (await screen.TextAsync("/pair")).Split("/pair/")[1].Split('<')[0];
        using Browser tom = await Browser.OfTechnicianAsync(shop, manager);
        using HttpResponseMessage byTom = await tom.SendAsync($"/pair/{code}", ("name", "wall"));
        Assert.Equal(HttpStatusCode.Forbidden, byTom.StatusCode);
        (await manager.SendAsync($"/pair/{code}", ("name", "wall"))).Dispose();
        using HttpResponseMessage again = await manager.SendAsync($"/pair/{code}", ("name", "another"));
        Assert.Equal(HttpStatusCode.NotFound, again.StatusCode);
        using var other = new Browser(shop);
        using HttpResponseMessage elsewhere = await other.GetAsync("/pair");
        Assert.Equal(HttpStatusCode.OK, elsewhere.StatusCode);
        using HttpResponseMessage letIn = await screen.GetAsync("/pair");
        Assert.Equal("/wall", letIn.Headers.Location?.ToString());
        Assert.True(await screen.IsInAsync());
        Assert.Single(shop.Services.GetRequiredService<Staff>().List.SignedIn, s => s.Role == Role.Screen);
    }

    [Fact]
    public async Task Screen_ThatWaitedTooLong_AsksAnew()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var screen = new Browser(shop);
        string code = (await screen.TextAsync("/pair")).Split("/pair/")[1].Split('<')[0];
        shop.Clock.Advance(TimeSpan.FromMinutes(10));
        using HttpResponseMessage late = await manager.SendAsync($"/pair/{code}", ("name", "wall"));
        Assert.Equal(HttpStatusCode.NotFound, late.StatusCode);
        Assert.DoesNotContain(code, await screen.TextAsync("/pair"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task LiveStream_OfOneWhoIsSignedOut_Ends()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser tom = await Browser.OfTechnicianAsync(shop, manager);
        using HttpResponseMessage live = await tom.GetAsync("/api/v1/live");
        await using Stream stream = await live.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken);
        Assert.NotEqual(0, await stream.ReadAsync(new byte[64], TestContext.Current.CancellationToken));
        (await manager.SendAsync("/people/remove", ("name", "Tom"))).Dispose();
        using var rest = new MemoryStream();
        await stream.CopyToAsync(rest, TestContext.Current.CancellationToken); // ends only with the stream
        Assert.DoesNotContain("grey-estate", System.Text.Encoding.UTF8.GetString(rest.ToArray()), StringComparison.Ordinal);
    }
}
