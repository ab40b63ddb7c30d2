package tickover.align;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import tickover.unit.HostNanos;

/**
 * Makes captures of aligned blocks: one piece for each stretch between gaps, never joined across.
 *
 * <p>In: {@link #take} every block of the capture, of all sources, and {@link #clock} each source's
 * clock, once near the end of the capture at least. <br>
 * Out: samples to the {@link StretchSink} as they come; {@link #finish} says what they are. Each
 * piece has the best speed there is for it: edges of the probe's own board, which are exact; else
 * those of another board, which go over both clocks by way of the host's; else readings, which keep
 * their arrival times, with the lag unknown. <br>
 * Memory: edges, readings, and a stamp for each run where the sensor has a clock of its own.
 * Thread: one.
 */
public final class CaptureAssembler {
    /**
     * What to assemble.
     *
     * @param probe source of the samples
     * @param pulsesPerTurn marks on the part under the tach, &gt;= 1
     * @param turnsPerCrankTurn turns of that part per crank turn, &gt; 0
     * @param leastS shorter stretches are left out, s
     */
    public record Spec(int probe, int pulsesPerTurn, double turnsPerCrankTurn, double leastS) {
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

    private final Spec spec;
    private final StretchSink sink;
    private final Map<Life, ClockFit> clocks = new HashMap<>();
    private final List<SampleStretch> stretches = new ArrayList<>();
    private final TreeMap<Integer, List<EdgeRun>> edges = new TreeMap<>();
    private final TreeMap<Integer, List<SpeedReading>> readings = new TreeMap<>();
    private final List<StreamGap> gaps = new ArrayList<>();
    private HostNanos origin;
    private ProbeStart start;

    /**
     * @param spec what to assemble
     * @param sink takes the samples
     */
    public CaptureAssembler(Spec spec, StretchSink sink) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.sink = Objects.requireNonNull(sink, "sink");
    }

    /**
     * Takes the next block. {@link ProbeStart}s from before the capture have to be taken too, and
     * edges and readings from shortly before it should be: its begin lies between two of them.
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
        } else if (block instanceof EdgeRun run) {
            edges.computeIfAbsent(run.source(), n -> new ArrayList<>()).add(run);
        } else if (block instanceof SpeedReading reading) {
            readings.computeIfAbsent(reading.source(), n -> new ArrayList<>()).add(reading);
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
        SampleStretch last = stretches.isEmpty() ? null : stretches.get(stretches.size() - 1);
        if (last != null && last.isFollowedBy(run)) {
            last.add(run);
        } else {
            sink.begin(stretches.size(), start, run.axes());
            stretches.add(new SampleStretch(run, start));
        }
        sink.samples(run);
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
            SampleStretch s = stretches.get(i);
            ClockFit fit = clocks.get(new Life(spec.probe, s.segment()));
            PieceClock clock = PieceClock.of(s, fit);
            double lengthS = s.count() / clock.rateHz();
            if (s.count() > 1 && lengthS >= spec.leastS) {
                pieces.add(piece(i, s, clock));
            } else {
                tooShort.add(lengthS);
            }
        }
        return new AssembledCapture(pieces, gaps, tooShort);
    }

    private CapturePiece piece(int number, SampleStretch s, PieceClock clock) {
        PieceSpeed speed = speed(s, clock);
        return new CapturePiece(
                number,
                clock.rateHz(),
                s.count(),
                s.axes(),
                speed.source(),
                s.segment(),
                s.firstSample(),
                clock.startS(origin),
                clock.rateErrorRatio(),
                clock.residualS(),
                speed.errorS(),
                speed.missedEdges(),
                speed.edgeGaps(),
                s.atLimit(clock.rateHz()));
    }

    private PieceSpeed speed(SampleStretch s, PieceClock clock) {
        double lengthS = s.count() / clock.rateHz();
        List<PieceSpeed.Edges> boards = new ArrayList<>();
        if (edges.containsKey(spec.probe)) {
            boards.add(new PieceSpeed.Edges(lengthS));
            for (EdgeRun run : edges.get(spec.probe)) {
                if (run.segment() == s.segment()) {
                    boards.get(0).add(run, clock.timesS(run), 0);
                }
            }
        }
        for (Map.Entry<Integer, List<EdgeRun>> other : edges.entrySet()) {
            if (other.getKey() == spec.probe) {
                continue;
            }
            PieceSpeed.Edges board = new PieceSpeed.Edges(lengthS);
            boards.add(board);
            for (EdgeRun run : other.getValue()) {
                ClockFit fit = clocks.get(new Life(run.source(), run.segment()));
                if (fit != null) {
                    board.add(run, clock.timesS(run, fit), clock.errorS(run, fit));
                }
            }
        }
        List<PieceSpeed.Readings> adapters = new ArrayList<>();
        for (List<SpeedReading> all : readings.values()) {
            PieceSpeed.Readings adapter = new PieceSpeed.Readings(lengthS);
            adapters.add(adapter);
            for (SpeedReading reading : all) {
                adapter.add(
                        reading, clock.timeS(reading.answered()), clock.errorS(reading.answered()));
            }
        }
        return PieceSpeed.choose(boards, adapters, spec.pulsesPerTurn, spec.turnsPerCrankTurn);
    }
}
