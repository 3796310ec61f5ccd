Console.WriteLine("perf");
