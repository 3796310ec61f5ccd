Console.WriteLine(Pleatwright.Measure.Probe.One);
