using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Letters;

/// <summary>A letter where it stands in a text that was set.</summary>
/// <param name="Character">The character.</param>
/// <param name="Line">Its line, from 0.</param>
/// <param name="Left">The figure's column on which its first column lies.</param>
/// <param name="Base">The figure's row on which its base line lies; may be past the figure where nothing of it reaches that far.</param>
/// <param name="Shape">Its cables.</param>
internal sealed record SetLetter(string Character, int Line, int Left, int Base, LetterShape Shape);

/// <summary>Text set in letters: one figure, to be put with <see cref="BaseRow"/> on a gathering row.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="BaseRow">Its row that lies on a gathering row: the first base line that the figure reaches, or a line of it.</param>
/// <param name="Letters">Its letters, in the order of the text.</param>
internal sealed record SetText(Figure Figure, int BaseRow, ImmutableArray<SetLetter> Letters);
