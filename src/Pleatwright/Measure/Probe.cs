namespace Pleatwright.Measure;
/// <summary>Probe.</summary>
public static class Probe { /// <summary>One.</summary>
 public static int One => 1; }
