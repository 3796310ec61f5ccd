using System.Globalization;

namespace Pleatwright.Files;

/// <summary>A piece file, a plate, a stash file or a list that cannot be read: where, what was found, and what would serve.</summary>
public sealed class PieceFormatException : Exception
{
    /// <summary>An error at a place in the text.</summary>
    /// <param name="line">Line, from 1.</param>
    /// <param name="column">Column in characters, from 1.</param>
    /// <param name="message">What was found and what would serve, in one line.</param>
    public PieceFormatException(int line, int column, string message) : base(message)
    {
        Line = line;
        Column = column;
    }

    /// <summary>Line, from 1.</summary>
    public int Line { get; }

    /// <summary>Column in characters, from 1.</summary>
    public int Column { get; }

    /// <summary>The error as one line for people: "line 3, column 5: message".</summary>
    public string Placed => string.Create(CultureInfo.InvariantCulture, $"line {Line}, column {Column}: {Message}");

    /// <summary>The error as one line for people, with the file it came from: "file:line:column: message".</summary>
    public string Located(string file) => string.Create(CultureInfo.InvariantCulture, $"{file}:{Line}:{Column}: {Message}");
}
