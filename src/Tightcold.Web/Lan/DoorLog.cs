using System.Net;
using Microsoft.Extensions.Logging;

namespace Tightcold.Web.Lan;

/// <summary>Who came in, was turned away or let in no longer. No key and no code is ever part of a line.</summary>
internal static partial class DoorLog
{
    [LoggerMessage(Level = LogLevel.Information, Message = "Paired {Device} ({Id}) at {From}")]
    public static partial void Paired(ILogger log, string device, Guid id, IPAddress? from);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A pairing at {From} failed: the code does not serve")]
    public static partial void PairingFailed(ILogger log, IPAddress? from);

    [LoggerMessage(Level = LogLevel.Information, Message = "{Device} ({Id}) is let in no longer")]
    public static partial void Revoked(ILogger log, string device, Guid id);

    [LoggerMessage(Level = LogLevel.Information, Message = "{Device} ({Id}) was not here for {Days} days")]
    public static partial void Idle(ILogger log, string device, Guid id, double days);

    [LoggerMessage(Level = LogLevel.Information, Message = "A browser on this machine became the owner's ({Id})")]
    public static partial void OwnerCame(ILogger log, Guid id);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "A link for the owner was tried on this machine that does not serve"
    )]
    public static partial void OwnerLinkFailed(ILogger log);
}
