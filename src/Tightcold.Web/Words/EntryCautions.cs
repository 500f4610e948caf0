using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Web.Words;

/// <summary>What can hurt while an entry of this kind is about to be taken; common practice of the trade. It stands
/// above the form, where the hands are about to move.</summary>
public static class EntryCautions
{
    public static Phrase Of(string kind) =>
        kind switch
        {
            EntryKinds.RunningReading => Phrase.Words(
                "Keep hoses, sleeves and hair away from belt and fan. Let nobody touch the high-side coupler while the engine runs."
            ),
            EntryKinds.Sign => Phrase.Words(
                "Keep hands, sleeves and hair away from belt and fan; thin pipes and heater hoses burn. "
                    + "Bridge nothing at a plug, and leave the orange cables of an electric compressor alone."
            ),
            EntryKinds.ContainerMoved => Phrase.Words(
                "Goggles and gloves on: liquid refrigerant freezes skin and eyes. A can is opened to the low side only; opened to the high side it can burst."
            ),
            EntryKinds.PressureTest => Phrase.Words(
                "Dry nitrogen through a regulator with relief, nothing else: oil explodes with oxygen, and refrigerant mixed with pressed air can burn."
            ),
            EntryKinds.Recovery => Phrase.Words(
                "Goggles and gloves on. Never fill a cylinder above its limit: a cylinder full of liquid bursts when it warms."
            ),
            EntryKinds.Opened => Phrase.Words(
                "Goggles on, and no pressure left in the system before a joint is loosened."
            ),
            EntryKinds.Purge => Phrase.Words(
                "Point the hose end away from face and flame, and let out no more than fills the hose."
            ),
            _ => Phrase.Empty,
        };
}
