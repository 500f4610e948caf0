namespace Tightcold.App.PropertyTables;

/// <summary>The table as a whole cannot be read: no header, or a header that names no supported pair. The message is
/// for the person.</summary>
public sealed class PropertyTableException(string message) : Exception(message);
