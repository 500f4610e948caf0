namespace Tightcold.Pages.Parts;

/// <summary>What a page can ask its renderer for where no server is: nothing. A form asks it for the token that keeps
/// other sites out, and carries none: no other site reaches into a phone, and a card has no form. Without a container
/// of services, which would travel to the phone.</summary>
internal sealed class NoServices : IServiceProvider
{
    public object? GetService(Type serviceType) => serviceType == typeof(IServiceProvider) ? this : null;
}
