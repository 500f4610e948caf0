using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Heater hose pinched off or heater valve shut, vent read again.</summary>
    public static TestKind PinchHeaterHose { get; } =
        new(14, "pinch-heater-hose", "Pinch off the heater hose or shut its valve and read the vent again", 5)
        {
            Looks = Sign.HosePinchedColder,
        };
}
