using System.Buffers;
using Tightcold.Properties;

namespace Tightcold.App.PropertyTables;

/// <summary>Writes evaluated rows as text into a pooled buffer.</summary>
internal sealed class ChunkWriter : IDisposable
{
    // Eleven numbers of at most 32 characters, separators and the phase.
    private const int LongestRow = 400;

    private char[] _buffer = ArrayPool<char>.Shared.Rent(1 << 16);
    private int _length;

    public ReadOnlyMemory<char> Written => _buffer.AsMemory(0, _length);

    public void Row(in PropertyRow row)
    {
        Reserve();
        Number(row.TemperatureK);
        Number(row.PressurePa);
        Number(row.DensityKgPerM3);
        Number(row.EnthalpyJPerKg);
        Number(row.EntropyJPerKgK);
        Number(row.Quality);
        Number(row.CpJPerKgK);
        Number(row.CvJPerKgK);
        Number(row.SpeedOfSoundMPerS);
        Number(row.Transport.ViscosityPaS);
        Number(row.Transport.ConductivityWPerMK);
        Text(
            row.Phase switch
            {
                FluidPhase.Liquid => "liquid",
                FluidPhase.Gas => "gas",
                FluidPhase.TwoPhase => "two_phase",
                _ => "supercritical",
            }
        );
    }

    public void ErrorRow()
    {
        Reserve();
        for (var i = 0; i < 11; i++)
            _buffer[_length++] = ',';
        Text("error");
    }

    public void Dispose() => ArrayPool<char>.Shared.Return(_buffer);

    private void Number(double? value)
    {
        if (value is { } number)
            Number(number);
        else
            _buffer[_length++] = ',';
    }

    private void Number(double value)
    {
        _length += NumberWriter.Write(value, _buffer.AsSpan(_length));
        _buffer[_length++] = ',';
    }

    private void Text(string word)
    {
        word.CopyTo(_buffer.AsSpan(_length));
        _length += word.Length;
        _buffer[_length++] = '\n';
    }

    private void Reserve()
    {
        if (_buffer.Length - _length >= LongestRow)
            return;
        var larger = ArrayPool<char>.Shared.Rent(2 * _buffer.Length);
        _buffer.AsSpan(0, _length).CopyTo(larger);
        ArrayPool<char>.Shared.Return(_buffer);
        _buffer = larger;
    }
}
