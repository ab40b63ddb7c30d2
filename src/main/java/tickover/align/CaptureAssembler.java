package tickover.align;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import tickover.unit.HostNanos;

/**
 * Makes captures of aligned blocks: one piece for each stretch between gaps, never joined across.
 *
 * <p>In: {@link #take} every block of the capture, of the probe and of the speed source, and {@link
 * #clock} each source's clock, once near the end of the capture at least. <br>
 * Out: {@link #finish}. A tach on the probe's own board is exact. A tach on another board goes over
 * both clocks by way of the host's; readings keep their arrival times, with the lag unknown. <br>
 * Memory: the capture's samples. Thread: one.
 */
public final class CaptureAssembler {
    /**
     * What to assemble.
     *
     * @param probe source of the samples
     * @param speed source of the edges or readings; may be the probe itself
     * @param pulsesPerTurn marks on the part under the tach, &gt;= 1
     * @param turnsPerCrankTurn turns of that part per crank turn, &gt; 0
     * @param leastS shorter stretches are left out, s
     */
    public record Spec(
            int probe, int speed, int pulsesPerTurn, double turnsPerCrankTurn, double leastS) {
        public Spec {
            if (!(pulsesPerTurn >= 1)) {
                throw new IllegalArgumentException(
                        "pulsesPerTurn=" + pulsesPerTurn + ", need >= 1");
            }
            if (!(turnsPerCrankTurn > 0)) {
                throw new IllegalArgumentException(
                        "turnsPerCrankTurn=" + turnsPerCrankTurn + ", need > 0");
            }
            if (!(leastS >= 0)) {
                throw new IllegalArgumentException("leastS=" + leastS + ", need >= 0 s");
            }
        }
    }

    /** Where a clock is not known, arrivals stand for it; no delay is longer, s. */
    private static final double UNKNOWN_CLOCK_S = 0.05;

    private final Spec spec;
    private final Map<Life, ClockFit> clocks = new HashMap<>();
    private final List<List<SampleRun>> stretches = new ArrayList<>();
    private final List<ProbeStart> stretchStarts = new ArrayList<>();
    private final List<EdgeRun> edges = new ArrayList<>();
    private final List<SpeedReading> readings = new ArrayList<>();
    private final List<StreamGap> gaps = new ArrayList<>();
    private HostNanos origin;
    private ProbeStart start;

    /**
     * @param spec what to assemble
     */
    public CaptureAssembler(Spec spec) {
        this.spec = Objects.requireNonNull(spec, "spec");
    }

    /**
     * Takes the next block. {@link ProbeStart}s from before the capture have to be taken too.
     *
     * @param block any block of any source
     */
    public void take(AlignedBlock block) {
        if (block instanceof ProbeStart s) {
            if (s.source() == spec.probe) {
                start = s;
            }
        } else if (block instanceof SampleRun run && run.source() == spec.probe) {
            samples(run);
        } else if (block instanceof EdgeRun run && run.source() == spec.speed) {
            edges.add(run);
        } else if (block instanceof SpeedReading reading && reading.source() == spec.speed) {
            readings.add(reading);
        } else if (block instanceof StreamGap gap && gap.source() == spec.probe) {
            gaps.add(gap);
        }
    }

    private void samples(SampleRun run) {
        if (start == null) {
            throw new IllegalStateException(
                    "samples of source " + spec.probe + " before its start");
        }
        if (origin == null) {
            origin = run.arrival();
        }
        List<SampleRun> last =
                stretches.isEmpty() ? List.of() : stretches.get(stretches.size() - 1);
        SampleRun before = last.isEmpty() ? null : last.get(last.size() - 1);
        boolean joins =
                before != null
                        && before.segment() == run.segment()
                        && before.firstSample() + before.count() == run.firstSample();
        if (joins) {
            last.add(run);
        } else {
            stretches.add(new ArrayList<>(List.of(run)));
            stretchStarts.add(start);
        }
    }

    /**
     * Says what a source's clock is in one of its segments; the latest word counts. Another segment
     * has another clock: after a reset ticks count from elsewhere.
     *
     * @param source its number
     * @param segment the segment
     * @param fit the clock
     */
    public void clock(int source, int segment, ClockFit fit) {
        clocks.put(new Life(source, segment), Objects.requireNonNull(fit, "fit"));
    }

    /** A source between two of its starts. */
    private record Life(int source, int segment) {}

    /**
     * Makes the pieces.
     *
     * @return pieces, gaps and what was too short
     */
    public AssembledCapture finish() {
        List<CapturePiece> pieces = new ArrayList<>();
        List<Double> tooShort = new ArrayList<>();
        for (int i = 0; i < stretches.size(); i++) {
            Stretch s = new Stretch(stretches.get(i), stretchStarts.get(i));
            if (s.count > 1 && s.count / s.rateHz >= spec.leastS) {
                pieces.add(s.piece());
            } else {
                tooShort.add(s.count / s.rateHz);
            }
        }
        return new AssembledCapture(pieces, gaps, tooShort);
    }

    /** One stretch on its way to a piece. */
    private final class Stretch {
        private final List<SampleRun> runs;
        private final SampleRun first;
        private final ProbeStart begun;
        private final int count;
        private final SampleClock clock;
        private final double realHz;
        private final double rateHz;
        private double speedErrorS;

        Stretch(List<SampleRun> runs, ProbeStart begun) {
            this.runs = runs;
            this.begun = begun;
            first = runs.get(0);
            count = runs.stream().mapToInt(SampleRun::count).sum();
            clock = sampleClock();
            double perTick =
                    count > 1 ? (count - 1) / (clock.tickAt(count - 1) - clock.tickAt(0)) : 1;
            ClockFit fit = clocks.get(new Life(spec.probe, first.segment()));
            realHz = perTick * (fit == null ? begun.tickHz() : 1 / fit.secondsPerTick());
            rateHz = Math.max(1, Math.rint(realHz));
        }

        private SampleClock sampleClock() {
            double firstTick = first.firstTick().value();
            if (begun.samplesFollowTicks() || runs.size() < 2) {
                double each =
                        begun.ticksPerSample() > 0 ? begun.ticksPerSample() : begun.tickHz() / 1000;
                return SampleClock.exact(firstTick, each);
            }
            double[] at = new double[runs.size()];
            double[] stamps = new double[runs.size()];
            for (int i = 0; i < at.length; i++) {
                at[i] = (double) (runs.get(i).firstSample() - first.firstSample());
                stamps[i] = runs.get(i).firstTick().value();
            }
            return SampleClock.fitted(at, stamps, begun.tickHz());
        }

        CapturePiece piece() {
            double[][] accel = new double[first.axes()][count];
            List<CapturePiece.Stretch> atLimit = new ArrayList<>();
            int at = 0;
            for (SampleRun run : runs) {
                for (int i = 0; i < run.count(); i++) {
                    for (int a = 0; a < accel.length; a++) {
                        accel[a][at + i] = run.accelMps2()[i * accel.length + a];
                    }
                }
                if (run.atLimit()) {
                    atLimit.add(new CapturePiece.Stretch(at / rateHz, (at + run.count()) / rateHz));
                }
                at += run.count();
            }
            List<CapturePiece.Stretch> edgeGaps = new ArrayList<>();
            long[] missed = new long[1];
            SpeedSource speed = readings.isEmpty() ? tach(edgeGaps, missed) : obd();
            return new CapturePiece(
                    new CaptureSignal(rateHz, accel, speed),
                    first.segment(),
                    first.firstSample(),
                    hostS((double) first.firstTick().value()),
                    realHz / rateHz - 1,
                    clock.residualTicks() / begun.tickHz(),
                    speedErrorS,
                    missed[0],
                    edgeGaps,
                    atLimit);
        }

        private double hostS(double tick) {
            ClockFit fit = clocks.get(new Life(spec.probe, first.segment()));
            return fit == null
                    ? first.arrival().secondsAfter(origin)
                    : fit.origin().secondsAfter(origin) + fit.hostSecondsAt(tick);
        }

        /** Time on the piece's base of a host moment. */
        private double baseS(HostNanos at) {
            ClockFit fit = clocks.get(new Life(spec.probe, first.segment()));
            if (fit != null) {
                speedErrorS = Math.max(speedErrorS, fit.errorAtS(fit.tickAt(at)));
                return clock.sampleAt(fit.tickAt(at)) / rateHz;
            }
            speedErrorS = UNKNOWN_CLOCK_S;
            return at.secondsAfter(first.arrival()) + first.count() / rateHz;
        }

        private SpeedSource obd() {
            List<SpeedReading> used = new ArrayList<>(readings);
            double[] times = new double[used.size()];
            double[] rpm = new double[used.size()];
            for (int i = 0; i < times.length; i++) {
                times[i] = baseS(used.get(i).answered());
                times[i] = i > 0 ? Math.max(times[i], times[i - 1]) : times[i];
                rpm[i] = used.get(i).speedRpm();
            }
            return times.length == 0 ? new NoSpeed() : new SpeedReadings(times, rpm, true);
        }

        private SpeedSource tach(List<CapturePiece.Stretch> edgeGaps, long[] missed) {
            List<Double> times = new ArrayList<>();
            double endS = count / rateHz;
            for (EdgeRun run : edges) {
                double[] at = edgeTimes(run);
                if (at.length > 0
                        && run.missedBefore() > 0
                        && !times.isEmpty()
                        && at[0] >= 0
                        && at[0] <= endS) {
                    missed[0] += run.missedBefore();
                    edgeGaps.add(new CapturePiece.Stretch(times.get(times.size() - 1), at[0]));
                }
                for (double t : at) {
                    if (t >= 0
                            && t <= endS
                            && (times.isEmpty() || t >= times.get(times.size() - 1))) {
                        times.add(t);
                    }
                }
            }
            return times.isEmpty()
                    ? new NoSpeed()
                    : new TachPulses(
                            times.stream().mapToDouble(t -> t).toArray(),
                            spec.pulsesPerTurn,
                            spec.turnsPerCrankTurn);
        }

        /** Edge times on the piece's base; none if they belong to another life of the board. */
        private double[] edgeTimes(EdgeRun run) {
            double[] at = new double[run.ticks().length];
            if (spec.speed == spec.probe) {
                if (run.segment() != first.segment()) {
                    return new double[0];
                }
                for (int i = 0; i < at.length; i++) {
                    at[i] = clock.sampleAt((double) run.ticks()[i]) / rateHz;
                }
                return at;
            }
            ClockFit fit = clocks.get(new Life(spec.speed, run.segment()));
            if (fit == null) {
                return new double[0];
            }
            double worst = 0;
            for (int i = 0; i < at.length; i++) {
                at[i] = baseS(fit.origin().plusS(fit.hostSecondsAt((double) run.ticks()[i])));
                worst = Math.max(worst, fit.errorAtS((double) run.ticks()[i]));
            }
            ClockFit own = clocks.get(new Life(spec.probe, first.segment()));
            double ownS = own == null ? UNKNOWN_CLOCK_S : own.errorAtS(own.tickAt(run.arrival()));
            speedErrorS = Math.max(speedErrorS, ownS + worst);
            return at;
        }
    }
}
