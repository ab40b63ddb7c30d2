package tickover.session;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import tickover.diagnose.Bench;
import tickover.diagnose.BenchFinding;
import tickover.diagnose.BenchRecord;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchTake;
import tickover.diagnose.BenchVerdict;
import tickover.diagnose.Fault;
import tickover.sim.BenchRig;
import tickover.sim.SimulatedBench;

/** Measures the bench verdict on simulated benches that it was not made on. */
public final class BenchStudy {
    private BenchStudy() {}

    /**
     * What one record was said to be.
     *
     * @param named faults that were named: the verdict's, and the findings seen
     * @param possible findings called possible
     * @param sound whether the verdict was healthy
     */
    public record Answer(Set<Fault> named, Set<Fault> possible, boolean sound) {
        /** Keeps its own copies. */
        public Answer {
            named = Set.copyOf(named);
            possible = Set.copyOf(possible);
        }

        static Answer of(BenchResult result) {
            Set<Fault> named = EnumSet.noneOf(Fault.class);
            Set<Fault> possible = EnumSet.noneOf(Fault.class);
            switch (result.verdict()) {
                case OUTER_RING -> named.add(Fault.BEARING_OUTER_RING);
                case INNER_RING -> named.add(Fault.BEARING_INNER_RING);
                case ROLLING_ELEMENT -> named.add(Fault.ROLLING_ELEMENT);
                case CAGE -> named.add(Fault.CAGE);
                case HEALTHY, UNCLEAR -> {}
            }
            for (BenchFinding f : result.findings()) {
                switch (f.state()) {
                    case SEEN -> named.add(f.fault());
                    case POSSIBLE -> possible.add(f.fault());
                    case NOT_SEEN -> {}
                }
            }
            return new Answer(named, possible, result.verdict() == BenchVerdict.HEALTHY);
        }
    }

    /**
     * What became of one simulated bench.
     *
     * @param seed its seed
     * @param truth the fault; {@link Fault#NONE} for a sound part
     * @param neighbourDamaged whether the bench's own spindle bearing is damaged
     * @param alone the answer to the record alone, its speed stated about a per cent off
     * @param withGood the answer with a known-good part beside it
     * @param speedFound whether the record alone shows its speed
     * @param foundRatio the speed found in it over the true one; 0 where it was not found
     */
    public record Outcome(
            long seed,
            Fault truth,
            boolean neighbourDamaged,
            Answer alone,
            Answer withGood,
            boolean speedFound,
            double foundRatio) {}

    /**
     * Judges benches.
     *
     * @param firstSeed first seed
     * @param count number of benches
     * @param progress hears of every finished bench
     * @return one outcome per bench
     */
    public static List<Outcome> judge(long firstSeed, int count, VisitAnalysis.Progress progress) {
        List<Outcome> out = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            SimulatedBench bench = BenchRig.turn(firstSeed + i);
            BenchRecord record = record(bench, bench.record());
            BenchTake take = BenchTake.atSpeed(record, bench.record().statedRpm());
            BenchTake good =
                    BenchTake.atSpeed(record(bench, bench.good()), bench.good().statedRpm());
            OptionalDouble found = found(record, bench.record().meanRpm());
            out.add(
                    new Outcome(
                            firstSeed + i,
                            Fault.ofWord(bench.truth().kind().word()).orElseThrow(),
                            bench.truth().neighbourDamaged(),
                            Answer.of(Bench.judge(take, List.of())),
                            Answer.of(Bench.judge(take, List.of(good))),
                            found.isPresent(),
                            found.orElse(0)));
            progress.reached(i + 1, count);
        }
        return out;
    }

    private static BenchRecord record(SimulatedBench bench, SimulatedBench.Take take) {
        return new BenchRecord(
                take.accelMps2(), take.sampleRateHz(), bench.geometry(), bench.turning());
    }

    private static OptionalDouble found(BenchRecord record, double trueRpm) {
        try {
            return OptionalDouble.of(BenchTake.findingSpeed(record).meanRpm() / trueRpm);
        } catch (IllegalArgumentException e) {
            return OptionalDouble.empty();
        }
    }
}
