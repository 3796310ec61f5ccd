namespace Pleatwright.Files.Pdf;

/// <summary>A value of ISO 32000-2, 7.3.</summary>
internal abstract record PdfValue;

/// <summary>A number, whole or not.</summary>
internal sealed record PdfNumber(double Value) : PdfValue;

/// <summary>A name, without its slash.</summary>
internal sealed record PdfName(string Text) : PdfValue;

/// <summary>A word without a slash: true, false, null, or a keyword.</summary>
internal sealed record PdfWord(string Text) : PdfValue;

/// <summary>A string as it is, in no encoding yet.</summary>
internal sealed record PdfString(byte[] Bytes) : PdfValue;

/// <summary>An array.</summary>
internal sealed record PdfList(List<PdfValue> Items) : PdfValue;

/// <summary>A dictionary.</summary>
internal sealed record PdfTable(Dictionary<string, PdfValue> Entries) : PdfValue;

/// <summary>A dictionary with a stream behind it, still packed.</summary>
/// <param name="Table">The dictionary.</param>
/// <param name="From">Where its bytes begin.</param>
internal sealed record PdfStream(PdfTable Table, int From) : PdfValue;

/// <summary>A place where another object stands.</summary>
internal sealed record PdfReference(int Number) : PdfValue;

/// <summary>A PDF that cannot be read.</summary>
/// <param name="at">Byte of the file, from 0; 0 where it is not known.</param>
/// <param name="message">What is wrong, as a sentence without a capital.</param>
internal sealed class PdfFault(int at, string message) : Exception(message)
{
    /// <summary>Byte of the file, from 0.</summary>
    public int At => at;
}
