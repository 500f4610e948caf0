using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Tightcold.Cli.Wiring;
using Tightcold.Quantities;
using Tightcold.Web.Lan;

namespace Tightcold.Cli.Commands;

/// <summary>Reads what a person says of the network into what the site needs, or refuses it in a sentence.</summary>
internal static class ServeLan
{
    /// <summary>Null when devices are not let in.</summary>
    public static LanOptions? Of(ServeSettings settings, DateTimeOffset now)
    {
        if (!settings.Lan)
        {
            var alone =
                settings.Addresses.Length > 0 ? "address"
                : settings.Name is not null ? "name"
                : settings.Certificate is not null ? "certificate"
                : settings.CertificateKey is not null ? "certificate-key"
                : null;
            return alone is null
                ? null
                : throw new RefusedException(
                    alone,
                    "",
                    "it goes with --lan; without that the site answers on this machine only"
                );
        }
        return new(Addresses(settings.Addresses))
        {
            Name = Name(settings.Name),
            Certificate = Certificate(settings, now),
        };
    }

    private static ImmutableArray<IPAddress> Addresses(string[] asked)
    {
        var own = LanOptions.OwnAddresses();
        if (asked.Length == 0)
            return own.Length > 0
                ? own
                : throw new RefusedException(
                    "lan",
                    "on",
                    "this machine has no address in a local network; connect it first"
                );
        return
        [
            .. asked.Select(typed =>
                !IPAddress.TryParse(typed, out var address)
                || address.ToString() != typed
                || !LanOptions.IsPrivate(address)
                    ? throw new RefusedException(
                        "address",
                        typed,
                        "a private address of this machine is allowed, such as 192.168.1.20"
                    )
                : own.Contains(address) ? address
                : throw new RefusedException(
                    "address",
                    typed,
                    own.Length == 0
                        ? Phrase.Words("this machine has no address in a local network; connect it first")
                        : Phrase.Of($"this machine has {Phrase.Verbatim(string.Join(", ", own))}")
                )
            ),
        ];
    }

    private static string? Name(string? typed) =>
        typed is null
        || (
            Uri.CheckHostName(typed) == UriHostNameType.Dns
            && typed.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '.')
        )
            ? typed
            : throw new RefusedException("name", typed, "a host name is allowed, such as garage.local");

    private static string Day(DateTime moment) => moment.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static X509Certificate2? Certificate(ServeSettings settings, DateTimeOffset now)
    {
        if (settings.Certificate is not { } file)
            return settings.CertificateKey is { } lonely
                ? throw new RefusedException("certificate-key", lonely, "it goes with --certificate")
                : null;
        try
        {
            var certificate = Path.GetExtension(file).ToLowerInvariant() is ".pfx" or ".p12"
                ? X509CertificateLoader.LoadPkcs12FromFile(file, null)
                : X509Certificate2.CreateFromPemFile(file, settings.CertificateKey);
            if (!certificate.HasPrivateKey)
                throw new RefusedException(
                    "certificate",
                    file,
                    "its private key is needed too; name it with --certificate-key"
                );
            if (now < certificate.NotBefore || now > certificate.NotAfter)
                throw new RefusedException(
                    "certificate",
                    file,
                    $"a valid one is needed; this one is valid from {Phrase.Verbatim(Day(certificate.NotBefore))} to "
                        + $"{Phrase.Verbatim(Day(certificate.NotAfter))}"
                );
            if (!OperatingSystem.IsWindows())
                return certificate;
            // Windows serves with keys from its own store only.
            using (certificate)
                return X509CertificateLoader.LoadPkcs12(certificate.Export(X509ContentType.Pkcs12), null);
        }
        catch (Exception trouble)
            when (trouble is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new RefusedException(
                "certificate",
                file,
                $"a certificate with its key is needed, PEM or PFX without a password; {Phrase.Verbatim(trouble.Message.TrimEnd('.'))}"
            );
        }
    }
}
