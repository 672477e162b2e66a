using System.Text;
using nietras.SeparatedValues;

namespace CureWatch.Service.Settings;

/// <summary>A readings file: comma-separated values (RFC 4180) with a header, rows in the order of their arrival.</summary>
internal sealed class ReadingsFile : IDisposable
{
    private const string NoUtf8 = "bytes that are no UTF-8, here or below";
    private const string Allowed = "rows of text in UTF-8, every quote closed";

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private readonly SepReader _reader;
    private readonly ReadingsFaults _faults;
    private ReadingCells? _cells;
    private int _line;

    private ReadingsFile(SepReader reader, ReadingsFaults faults) => (_reader, _faults) = (reader, faults);

    /// <summary>Gives the rows one by one, save those with a fault; the faults are complete when the rows are at their end.</summary>
    public static IEnumerable<ReadingRow> Read(string path, Faults faults)
    {
        var ofFile = new ReadingsFaults(path, faults);
        using ReadingsFile? file = Open(path, ofFile, faults);
        while (file is not null && file.TryNext(out ReadingRow row))
        {
            yield return row;
        }

        ofFile.Close();
    }

    public void Dispose() => _reader.Dispose();

    private static ReadingsFile? Open(string path, ReadingsFaults ofFile, Faults faults)
    {
        try
        {
            var text = new StreamReader(path, Strict, detectEncodingFromByteOrderMarks: true);
            SepReaderOptions options = Sep.New(',').Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true });
            return new ReadingsFile(options.From(text), ofFile);
        }
        catch (DecoderFallbackException)
        {
            ofFile.Add(1, null, NoUtf8, Allowed);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            faults.Add(Unreadable.At(path, e));
            return null;
        }
    }

    private bool TryNext(out ReadingRow row)
    {
        row = default;
        if (_cells is null && !TryHeader())
        {
            return false;
        }

        while (MoveNext())
        {
            if (!_reader.Current.Span.IsEmpty && _cells!.TryRead(_reader.Current, out row))
            {
                return true;
            }
        }

        return false;
    }

    private bool TryHeader()
    {
        if (!MoveNext())
        {
            _faults.Add(1, null, "", "a header that names the columns");
            return false;
        }

        _cells = ReadingColumns.Read(_reader.Current, _faults) is { } columns ? new ReadingCells(columns, _faults) : null;
        return _cells is not null;
    }

    private bool MoveNext()
    {
        try
        {
            bool moved = _reader.MoveNext();
            _line = moved ? _reader.Current.LineNumberToExcl : _line;
            return moved;
        }
        catch (Exception e) when (e is IOException or DecoderFallbackException or NotSupportedException)
        {
            string seen = e is DecoderFallbackException ? NoUtf8 : e is NotSupportedException ? "a row longer than any that is read" : e.Message;
            _faults.Add(_line, null, seen, Allowed);
            return false;
        }
    }
}
