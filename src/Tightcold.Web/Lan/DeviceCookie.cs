using Microsoft.AspNetCore.Http;

namespace Tightcold.Web.Lan;

/// <summary>The key of a paired device, or of the owner's browser. Strict is enough: the links that bring one in need
/// no key, and every step after them comes from a page of this site.</summary>
internal static class DeviceCookie
{
    public const string Name = "tightcold-device";
    public const string OwnerName = "tightcold-owner";

    public static void Give(HttpContext http, string name, string key) =>
        http.Response.Cookies.Append(
            name,
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
