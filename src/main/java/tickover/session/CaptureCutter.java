package tickover.session;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.CaptureAssembler;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.drive.Vehicle;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingReader;
import tickover.unit.HostNanos;

/**
 * Cuts the captures out of a recording. One without any remark of a capture is one capture, of
 * everything. Memory does not grow with the recording: samples go to files as they come, and a
 * capture that is too long to be analysed at once is cut into parts.
 */
final class CaptureCutter {
    /** Shorter stretches say nothing of an engine at idle, s. */
    static final double LEAST_S = 1.5;

    /**
     * Samples times axes of a capture at most. The analysis holds one capture at a time, 8 bytes
     * for each: half a gigabyte.
     */
    static final int MOST_VALUES = 1 << 26;

    /** So often clocks are asked: the last word before a reset is what the time before it needs. */
    private static final double CLOCKS_EVERY_S = 1;

    private final RecordingReader reader;
    private final RecordingFacts facts;
    private final Path folder;
    private final int mostValues;
    private final Consumer<CutCapture> sink;
    private final CaptureAssembler.Spec spec;
    private final StreamPipeline pipeline = new StreamPipeline(this::derived);
    private final List<CaptureWindow> open = new ArrayList<>();

    /** Edges and readings of the last moments: a capture that begins now needs them. */
    private final Deque<AlignedBlock> recent = new ArrayDeque<>();

    private final ProbeStart[] starts;
    private int windows;
    private HostNanos clocksAt = new HostNanos(0);

    /**
     * @param file the recording
     * @param facts what it says of itself
     * @param vehicle gives the ratio of the tach's pulley
     * @param folder gets the samples, in files that the captures know
     * @param mostValues samples times axes of a capture at most
     * @param sink takes each capture when it is over
     */
    CaptureCutter(
            Path file,
            RecordingFacts facts,
            Vehicle vehicle,
            Path folder,
            int mostValues,
            Consumer<CutCapture> sink) {
        this.reader = RecordingReader.open(file);
        this.facts = facts;
        this.folder = folder;
        this.mostValues = mostValues;
        this.sink = sink;
        this.spec =
                new CaptureAssembler.Spec(
                        facts.probe(),
                        facts.pulsesPerTurn(),
                        ratio(vehicle, facts.tachPulley()),
                        LEAST_S);
        this.starts = new ProbeStart[facts.sources()];
    }

    /** Turns of the marked pulley per crank turn. */
    private static double ratio(Vehicle vehicle, String pulley) {
        boolean known = vehicle.crankPulley().isPresent() && vehicle.pulley(pulley).isPresent();
        return known
                ? vehicle.crankPulley().get().diameterMm()
                        / vehicle.pulley(pulley).get().diameterMm()
                : 1;
    }

    /** Reads the recording through. */
    void cut() {
        try {
            reader.forEach(
                    new ChunkSink() {
                        @Override
                        public void chunk(Chunk chunk) {
                            take(chunk);
                        }

                        @Override
                        public void damaged(long offset, long bytes, HostNanos lastGood) {
                            pipeline.damaged(lastGood);
                        }
                    });
            pipeline.end();
            clocks();
            while (!open.isEmpty()) {
                finish(open.remove(0));
            }
        } finally {
            open.forEach(w -> w.spill().discard());
        }
    }

    private void take(Chunk chunk) {
        if (chunk.kind() == Chunk.Kind.NOTE) {
            RecordingNote.parse(chunk.bytes()).ifPresent(n -> note(n, chunk.at()));
        }
        if (chunk.at().secondsAfter(clocksAt) >= CLOCKS_EVERY_S) {
            clocksAt = chunk.at();
            clocks();
        }
        pipeline.accept(chunk);
        if (!open.isEmpty() && open.get(0).doneBy(chunk.at())) {
            finish(open.remove(0));
        }
    }

    private void note(RecordingNote note, HostNanos at) {
        switch (note.kind()) {
            case BEGIN -> {
                clocks();
                open.forEach(w -> w.end(at));
                begin(note.number(), note.capture(), at);
            }
            case END -> {
                clocks();
                open.forEach(w -> w.end(at));
            }
            case VEHICLE, TACH, UNREADABLE -> {}
        }
    }

    private void begin(int number, PlannedCapture capture, HostNanos at) {
        windows++;
        String files = String.format(Locale.ROOT, ".w%d", windows);
        CaptureWindow window =
                new CaptureWindow(number, capture, at, spec, new CaptureSpill(folder, files));
        for (ProbeStart start : starts) {
            if (start != null) {
                window.take(start);
            }
        }
        recent.forEach(window::take);
        open.add(window);
        clocks();
    }

    private void derived(AlignedBlock block) {
        if (block instanceof ProbeStart start) {
            starts[start.source()] = start;
        } else if (block instanceof SampleRun run && run.source() == facts.probe()) {
            beginBefore(run);
        } else if (block instanceof EdgeRun || block instanceof SpeedReading) {
            keep(block);
        }
        open.forEach(w -> w.take(block));
    }

    /** Begins the capture of everything, or the next part of a long one. */
    private void beginBefore(SampleRun run) {
        if (open.isEmpty() && facts.captures() == 0) {
            begin(1, PlannedCapture.UNNAMED, run.arrival());
            return;
        }
        for (CaptureWindow w : List.copyOf(open)) {
            if (w.isOpen() && w.values() + run.accelMps2().length > mostValues) {
                clocks();
                w.endPart(run.arrival());
                begin(w.number(), w.capture(), run.arrival());
            }
        }
    }

    private void keep(AlignedBlock block) {
        recent.add(block);
        HostNanos now = CaptureWindow.arrival(block);
        while (now.secondsAfter(CaptureWindow.arrival(recent.peek()))
                > CaptureWindow.SPEED_AROUND_S) {
            recent.remove();
        }
    }

    private void clocks() {
        for (int source = 0; source < starts.length; source++) {
            if (pipeline.knows(source) && starts[source] != null) {
                int number = source;
                int segment = starts[source].segment();
                pipeline.clock(source)
                        .ifPresent(fit -> open.forEach(w -> w.clock(number, segment, fit)));
            }
        }
    }

    private void finish(CaptureWindow window) {
        sink.accept(
                new CutCapture(
                        window.number(),
                        window.capture(),
                        window.finish(),
                        window.spill(),
                        window.goesOn()));
        window.spill().discard();
    }
}
