package tickover.console.model;

import java.util.List;
import tickover.drive.Condition;
import tickover.session.LineChoice;
import tickover.session.RecordLine;
import tickover.session.SimulatedLine;
import tickover.sim.SimulatedVan;

/** Makes the source of a round: ports, or the simulated van. */
final class RoundSources {
    private RoundSources() {}

    /** The probe on whatever port answers like one. Takes some seconds. */
    static RoundSource ports(ConsoleOptions options) {
        LineChoice choice =
                LineChoice.of(
                        new LineChoice.Wish("", 0, "", "", "", "", 0, options.dataDir()),
                        progress -> {});
        return new RoundSource() {
            @Override
            public List<RecordLine> lines() {
                return choice.lines();
            }

            @Override
            public void moved(String point, Condition condition) {}

            @Override
            public void close() {}
        };
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
            public void close() {
                line.close();
            }
        };
    }
}
