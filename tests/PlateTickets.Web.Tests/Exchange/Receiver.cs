using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Hosting;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>Another program that takes messages, on a port of this machine.</summary>
internal sealed class Receiver : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly ConcurrentQueue<Message> _messages = [];

    private Receiver(WebApplication app) => _app = app;

    /// <summary>A message as it came.</summary>
    public sealed record Message(WebHeaderCollection Headers, byte[] Body, string ContentType);

    /// <summary>What it answers; 200 unless set.</summary>
    public Func<HttpContext, Task> Answer { get; set; } = context => Task.CompletedTask;

    public IReadOnlyList<Message> Messages => [.. _messages];

    public string Url => _app.Urls.Single() + "/hook";

    public static async Task<Receiver> StartAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        var receiver = new Receiver(app);
        app.Run(receiver.TakeAsync);
        await app.StartAsync();
        return receiver;
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task TakeAsync(HttpContext context)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body);
        var headers = new WebHeaderCollection();
        foreach (var (name, value) in context.Request.Headers)
        {
            headers.Add(name, value.ToString());
        }

        _messages.Enqueue(new Message(headers, body.ToArray(), context.Request.ContentType ?? ""));
        await Answer(context);
    }
}
