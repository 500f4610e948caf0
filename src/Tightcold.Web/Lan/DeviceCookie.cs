using Microsoft.AspNetCore.Http;

namespace Tightcold.Web.Lan;

/// <summary>The key of a paired device. Strict is enough: the link in the QR code needs no key, it brings the code, and
/// every step after it comes from a page of this site.</summary>
internal static class DeviceCookie
{
    public const string Name = "tightcold-device";

    public static void Give(HttpContext http, string key) =>
        http.Response.Cookies.Append(
            Name,
            key,
            new CookieOptions
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Strict,
                Secure = http.Request.IsHttps,
                IsEssential = true,
                // The longest that browsers keep one (RFC 6265bis).
                MaxAge = TimeSpan.FromDays(400),
            }
        );
}
