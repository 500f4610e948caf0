namespace Tightcold.Jobs.Fields;

/// <summary>The words of choices by which something is decided, as they are stored; what a person reads is the label of
/// the choice. Nothing is decided by a text that does not stand here.</summary>
public static class Chosen
{
    public const string Absolute = "absolute";
    public const string Acetylene = "acetylene";
    public const string Added = "added";
    public const string AsLabelled = "as labelled";
    public const string AtTheExpansionDevice = "at the expansion device";
    public const string AtThePump = "at the pump";
    public const string BlockedAirflow = "blocked airflow";
    public const string Breeze = "breeze";
    public const string Bubbles = "bubbles";
    public const string Clear = "clear";
    public const string ClearLeak = "clear leak";
    public const string Closed = "closed";
    public const string CompressedAir = "compressed air";
    public const string Connected = "connected";
    public const string Cycling = "cycling";
    public const string Dial = "dial";
    public const string Disconnected = "disconnected";
    public const string Drier = "drier";
    public const string Driving = "driving";
    public const string Emptied = "emptied";
    public const string FanOnCondenser = "fan on condenser";
    public const string FullByWeight = "full, by weight";
    public const string HighSide = "high side";
    public const string HosesAlone = "hoses and gauges alone";
    public const string Inverted = "inverted (liquid)";
    public const string Low = "low";
    public const string MakersBook = "maker's book";
    public const string Measured = "measured";
    public const string Medium = "medium";
    public const string Milky = "milky";
    public const string MixedOrUnknown = "mixed or unknown";
    public const string None = "none";
    public const string Off = "off";
    public const string On = "on";
    public const string OnTheDrier = "on the drier";
    public const string OnTheSuctionLine = "on the suction line";
    public const string Open = "open";
    public const string Opened = "opened";
    public const string Oxygen = "oxygen";
    public const string ParkedInTheSun = "parked in the sun";
    public const string Recirculated = "recirculated";
    public const string Removed = "removed";
    public const string Shut = "shut";
    public const string Started = "started";
    public const string ToppedUp = "topped up";
    public const string Trace = "trace";
    public const string Waiting = "waiting";
    public const string WaterMist = "water mist";
    public const string WindowsOpen = "windows open";
    public const string Windy = "windy";
    public const string Yes = "yes";
}
