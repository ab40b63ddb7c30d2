package tickover.console.model;

import java.util.List;
import java.util.Locale;
import tickover.drive.BearingGeometry;
import tickover.drive.Condition;
import tickover.drive.Ring;
import tickover.session.AcquisitionException;
import tickover.session.LineChoice;
import tickover.session.RecordLine;
import tickover.session.SimulatedLine;
import tickover.sim.BenchScene;
import tickover.sim.FaultKind;
import tickover.sim.SimulatedVan;

/** Makes the source of a round: ports, or the simulated van. */
final class RoundSources {
    private RoundSources() {}

    /** The probe on whatever port answers like one. Takes some seconds. */
    static RoundSource ports(LineChoice.Wish wish) {
        LineChoice choice;
        try {
            choice = LineChoice.of(wish, progress -> {});
        } catch (AcquisitionException e) {
            // What the command line says there is chosen on this screen.
            String sentence = String.valueOf(e.getMessage());
            throw new IllegalStateException(
                    sentence.contains("--port")
                            ? capital(sentence.replaceAll("[;,][^;,]*--port.*$", ""))
                                    + ", then press the space bar again; other ports are under"
                                    + " Probe and speed."
                            : sentence.replaceAll("; 'tickover ports'.*$", "")
                                    + ". Choose another under Probe and speed, or press the space"
                                    + " bar to try again.",
                    e);
        }
        List<RecordLine> lines = choice.lines();
        return new RoundSource() {
            @Override
            public List<RecordLine> lines() {
                return lines;
            }

            @Override
            public void moved(String point, Condition condition) {}

            @Override
            public void close() {}
        };
    }

    private static String capital(String sentence) {
        return sentence.substring(0, 1).toUpperCase(Locale.ROOT) + sentence.substring(1);
    }

    /** The probe on whatever port answers like one, at a bench. Takes some seconds. */
    static BenchSource benchPorts(LineChoice.Wish wish) {
        RoundSource ports = ports(wish);
        return new BenchSource() {
            @Override
            public List<RecordLine> lines() {
                return ports.lines();
            }

            @Override
            public void put(
                    String part, BearingGeometry geometry, Ring turning, boolean knownGood) {}

            @Override
            public void close() {
                ports.close();
            }
        };
    }

    /** A probe on a simulated bench; what was taken off the simulated van is as it was there. */
    static BenchSource simulatedBench() {
        BenchScene bench = new BenchScene();
        SimulatedLine line = SimulatedLine.bench(bench, SimulatedLine.Spec.GOOD);
        return new BenchSource() {
            @Override
            public List<RecordLine> lines() {
                return line.lines();
            }

            @Override
            public void put(
                    String part, BearingGeometry geometry, Ring turning, boolean knownGood) {
                bench.put(geometry, turning, SimulatedVan.wearOf(part), knownGood);
            }

            @Override
            public boolean isSimulated() {
                return true;
            }

            @Override
            public void close() {
                line.close();
            }
        };
    }

    /** A recording that runs again: there is nothing to open, to move or to close. */
    static RoundSource recorded() {
        return new RoundSource() {
            @Override
            public List<RecordLine> lines() {
                return List.of();
            }

            @Override
            public void moved(String point, Condition condition) {}

            @Override
            public void close() {}
        };
    }

    /** The same at the bench. */
    static BenchSource recordedBench() {
        return new BenchSource() {
            @Override
            public List<RecordLine> lines() {
                return List.of();
            }

            @Override
            public void put(
                    String part, BearingGeometry geometry, Ring turning, boolean knownGood) {}

            @Override
            public void close() {}
        };
    }

    /** Whether a repair of what is worn on the simulated van is marked. Reads the log. */
    static boolean isMended(ConsoleModel console, String unit) {
        return console.fromLog(log -> log.history().repairs(unit)).stream()
                .anyMatch(r -> SimulatedVan.wearOf(r.part()) != FaultKind.NONE);
    }

    /** A probe held to the simulated van. */
    static RoundSource simulated(boolean repaired) {
        SimulatedVan van = new SimulatedVan(repaired);
        SimulatedLine line = SimulatedLine.van(van, SimulatedLine.Spec.GOOD);
        return new RoundSource() {
            @Override
            public List<RecordLine> lines() {
                return line.lines();
            }

            @Override
            public void moved(String point, Condition condition) {
                van.hold(point, condition);
            }

            @Override
            public boolean isSimulated() {
                return true;
            }

            @Override
            public void close() {
                line.close();
            }
        };
    }
}
