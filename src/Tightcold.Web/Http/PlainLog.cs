using Microsoft.Extensions.Logging;

namespace Tightcold.Web.Http;

/// <summary>Hands errors as plain lines to whoever runs the site.</summary>
internal sealed class PlainLog(Action<string> write) : ILoggerProvider, ILogger
{
    public ILogger CreateLogger(string categoryName) => this;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Error;

    public void Log<TState>(
        LogLevel logLevel,
        EventId eventId,
        TState state,
        Exception? exception,
        Func<TState, Exception?, string> formatter
    )
    {
        if (IsEnabled(logLevel))
            write(exception is null ? formatter(state, exception) : $"{formatter(state, exception)}: {exception}");
    }

    public void Dispose() { }
}
