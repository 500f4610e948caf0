namespace Tightcold.Properties.Tables;

/// <summary>The inputs as types.</summary>
internal static class TableInputs
{
    internal readonly struct Enthalpy : ITableInput
    {
        public static TableInput Kind => TableInput.Enthalpy;
    }

    internal readonly struct Entropy : ITableInput
    {
        public static TableInput Kind => TableInput.Entropy;
    }

    internal readonly struct Temperature : ITableInput
    {
        public static TableInput Kind => TableInput.Temperature;
    }
}
