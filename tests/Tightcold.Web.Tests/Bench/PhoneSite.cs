using System.Net;
using System.Net.Http.Headers;
using Microsoft.Extensions.Time.Testing;
using Tightcold.App.Demo;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.LogStore;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Hosted;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The pages as a phone hosts them, without a browser: the same host over a log in memory. Spoken to as any
/// site, so that what asks a server can ask it too.</summary>
public sealed class PhoneSite : IAsyncDisposable
{
    public static readonly Uri Origin = new("https://phone.example/");

    private readonly PageHost host;

    private PhoneSite(DateTimeOffset now)
    {
        Clock = new FakeTimeProvider(now.ToUniversalTime());
        Clock.SetLocalTimeZone(TimeZoneInfo.CreateCustomTimeZone("workshop", now.Offset, "workshop", "workshop"));
        Log = JobLog.Open(Disk);
        Desk = new(Log, Clock, new RandomIds());
        // Whole pages, as the tests of the site ask for them.
        host = new(Log, Clock, new RandomIds(), Memory, Origin, Walk.Of, Hang.Limit);
    }

    public FakeTimeProvider Clock { get; }
    public MemoryDisk Disk { get; } = new();
    public JobLog Log { get; }
    public JobDesk Desk { get; }
    public DeviceMemory Memory { get; } = new();

    public static PhoneSite At(DateTimeOffset now) => new(now);

    /// <summary>With the demo's job, at the hour at which the tests look at it on the site.</summary>
    public static async Task<PhoneSite> WithDemoAsync()
    {
        var phone = new PhoneSite(DemoScenario.Start.AddHours(9));
        await DemoScenario.PlayAsync(phone.Log, null, TestContext.Current.CancellationToken);
        return phone;
    }

    public HttpClient Client() => new(new Ears(host)) { BaseAddress = Origin };

    public ValueTask DisposeAsync() => host.DisposeAsync();

    /// <summary>A file in memory, with as much room as a test gives it.</summary>
    public sealed class MemoryDisk : IGrowingFile
    {
        private readonly List<byte> held = [];

        public long Room { get; set; } = long.MaxValue;
        public long Length => held.Count;

        public int Read(long at, Span<byte> into)
        {
            var count = (int)Math.Min(into.Length, held.Count - at);
            for (var i = 0; i < count; i++)
                into[i] = held[(int)at + i];
            return count;
        }

        public void Append(ReadOnlySpan<byte> bytes)
        {
            if (held.Count + bytes.Length > Room)
                throw new FullException("no room");
            held.AddRange(bytes);
        }

        public void Cut(long length) => held.RemoveRange((int)length, held.Count - (int)length);
    }

    public sealed class DeviceMemory : IDeviceMemory
    {
        private readonly Dictionary<Choice, string> kept = [];

        public string? Read(Choice choice) => kept.GetValueOrDefault(choice);

        public void Write(Choice choice, string value) => kept[choice] = value;
    }

    /// <summary>What the worker of a browser does with a request.</summary>
    private sealed class Ears(PageHost host) : HttpMessageHandler
    {
        protected override async Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            var fields = new List<(string, string)>();
            var files = new Dictionary<string, (string, byte[])>();
            switch (request.Content)
            {
                case FormUrlEncodedContent form:
                    var text = await form.ReadAsStringAsync(cancellationToken);
                    fields.AddRange(
                        text.Split('&')
                            .Select(pair => pair.Split('='))
                            .Select(pair => (WebUtility.UrlDecode(pair[0]), WebUtility.UrlDecode(pair[1])))
                    );
                    break;
                case MultipartFormDataContent parts:
                    foreach (var part in parts)
                    {
                        var said = part.Headers.ContentDisposition!;
                        var name = said.Name!.Trim('"');
                        if (said.FileName is { } file)
                            files[name] = (file.Trim('"'), await part.ReadAsByteArrayAsync(cancellationToken));
                        else
                            fields.Add((name, await part.ReadAsStringAsync(cancellationToken)));
                    }
                    break;
            }
            var answer = await host.AnswerAsync(
                new(request.Method == HttpMethod.Post, request.RequestUri!.PathAndQuery, fields)
                {
                    Files = files,
                    IsKept = request.Headers.Contains("X-Tightcold-Kept"),
                    Has = request.Headers.TryGetValues("If-None-Match", out var has) ? has.First() : null,
                },
                cancellationToken
            );
            var response = new HttpResponseMessage((HttpStatusCode)answer.Status)
            {
                RequestMessage = request,
                Content = new ByteArrayContent(answer.Body.ToArray()),
            };
            foreach (var (name, value) in answer.Headers)
                if (name == "Content-Type")
                    response.Content.Headers.ContentType = MediaTypeHeaderValue.Parse(value);
                else if (!response.Headers.TryAddWithoutValidation(name, value))
                    response.Content.Headers.TryAddWithoutValidation(name, value);
            return response;
        }
    }
}
