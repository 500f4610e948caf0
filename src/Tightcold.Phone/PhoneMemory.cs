using System.Runtime.InteropServices.JavaScript;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Hosted;

namespace Tightcold.Phone;

/// <summary>The person's choices, in a small file of their own: no record, and no harm when it is lost.</summary>
internal sealed partial class PhoneMemory : IDeviceMemory
{
    public string? Read(Choice choice) => Recall(Choices.Name(choice));

    public string? Wishes => Languages();

    public void Write(Choice choice, string value) => Remember(Choices.Name(choice), value);

    [JSImport("recall", "disk")]
    private static partial string? Recall(string name);

    [JSImport("languages", "disk")]
    private static partial string? Languages();

    [JSImport("remember", "disk")]
    private static partial void Remember(string name, string value);
}
