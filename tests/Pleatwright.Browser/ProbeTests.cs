namespace Pleatwright.Browser.Tests;
public class ProbeTests { [Fact] public void One() => Assert.Equal(1, 2 - 1); }
