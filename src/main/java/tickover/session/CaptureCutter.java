package tickover.session;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tickover.align.AlignedBlock;
import tickover.align.CaptureAssembler;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.drive.Vehicle;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingHeader;
import tickover.link.RecordingIndex;
import tickover.link.RecordingReader;
import tickover.unit.HostNanos;

/**
 * Cuts the captures out of a recording. One without any remark of a capture is one capture, of
 * everything.
 */
final class CaptureCutter {
    /** Shorter stretches say nothing of an engine at idle, s. */
    static final double LEAST_S = 1.5;

    /** So often clocks are asked: the last word before a reset is what the time before it needs. */
    private static final double CLOCKS_EVERY_S = 1;

    /** What a recording without a remark is taken to be of. */
    private static final PlannedCapture EVERYTHING =
            new PlannedCapture("unnamed", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED);

    private final RecordingReader reader;
    private final RecordingFacts facts;
    private final CaptureAssembler.Spec spec;
    private final boolean anyCapture;
    private final int sources;
    private final StreamPipeline pipeline = new StreamPipeline(this::derived);
    private final List<CaptureWindow> open = new ArrayList<>();
    private final List<CutCapture> cut = new ArrayList<>();
    private final ProbeStart[] starts;
    private ProbeStart probe;
    private HostNanos clocksAt = new HostNanos(0);

    /**
     * @param file the recording
     * @param vehicle gives the ratio of the tach's pulley
     */
    CaptureCutter(Path file, Vehicle vehicle) {
        reader = RecordingReader.open(file);
        Remarks remarks = new Remarks();
        reader.forEach(remarks);
        RecordingIndex index = reader.index();
        RecordingHeader header =
                reader.header().orElseGet(() -> ContentReader.unknown(file, index));
        facts =
                new RecordingFacts(
                        header.id(),
                        header.startedWall(),
                        remarks.vehicle,
                        remarks.pulley,
                        remarks.pulses);
        spec =
                new CaptureAssembler.Spec(
                        remarks.probe,
                        remarks.speed < 0 ? remarks.probe : remarks.speed,
                        remarks.pulses,
                        ratio(vehicle, remarks.pulley),
                        LEAST_S);
        anyCapture = remarks.captures > 0;
        sources = remarks.sources;
        starts = new ProbeStart[sources];
    }

    /** Turns of the marked pulley per crank turn. */
    private static double ratio(Vehicle vehicle, String pulley) {
        boolean known = vehicle.crankPulley().isPresent() && vehicle.pulley(pulley).isPresent();
        return known
                ? vehicle.crankPulley().get().diameterMm()
                        / vehicle.pulley(pulley).get().diameterMm()
                : 1;
    }

    /** What has to be known before the first capture is cut. */
    private static final class Remarks implements ChunkSink {
        private String vehicle = "";
        private String pulley = "crank";
        private int pulses = 1;
        private int captures;
        private int probe;
        private int speed = -1;
        private int sources;

        @Override
        public void chunk(Chunk chunk) {
            if (chunk.kind() == Chunk.Kind.SOURCE) {
                sources = Math.max(sources, chunk.source() + 1);
                switch (SourceInfo.parse(chunk.bytes()).role()) {
                    case PROBE -> probe = chunk.source();
                    case TACH, ADAPTER -> speed = chunk.source();
                }
            } else if (chunk.kind() == Chunk.Kind.NOTE) {
                RecordingNote.parse(chunk.bytes()).ifPresent(this::note);
            }
        }

        private void note(RecordingNote note) {
            switch (note.kind()) {
                case BEGIN -> captures++;
                case END -> {}
                case VEHICLE -> vehicle = note.vehicleToml();
                case TACH -> {
                    pulley = note.tachPulley();
                    pulses = note.pulsesPerTurn();
                }
            }
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {}
    }

    /** What a recording says of the vehicle, without cutting anything. */
    static String vehicleToml(Path file) {
        Remarks remarks = new Remarks();
        RecordingReader.open(file).forEach(remarks);
        return remarks.vehicle;
    }

    CutCapture.All cut() {
        reader.forEach(
                new ChunkSink() {
                    @Override
                    public void chunk(Chunk chunk) {
                        if (chunk.kind() == Chunk.Kind.NOTE) {
                            RecordingNote.parse(chunk.bytes()).ifPresent(n -> note(n, chunk.at()));
                        }
                        if (chunk.at().secondsAfter(clocksAt) >= CLOCKS_EVERY_S) {
                            clocksAt = chunk.at();
                            clocks();
                        }
                        pipeline.accept(chunk);
                        closeDone(chunk.at());
                    }

                    @Override
                    public void damaged(long offset, long bytes, HostNanos lastGood) {
                        pipeline.damaged(lastGood);
                    }
                });
        pipeline.end();
        clocks();
        open.forEach(this::finish);
        open.clear();
        return new CutCapture.All(cut, facts);
    }

    private void note(RecordingNote note, HostNanos at) {
        switch (note.kind()) {
            case BEGIN -> {
                open.forEach(w -> w.end(at));
                begin(note.number(), note.capture(), at);
            }
            case END -> {
                clocks();
                open.forEach(w -> w.end(at));
            }
            case VEHICLE, TACH -> {}
        }
    }

    private void begin(int number, PlannedCapture capture, HostNanos at) {
        CaptureWindow window = new CaptureWindow(number, capture, at, spec);
        for (ProbeStart start : starts) {
            if (start != null) {
                window.take(start);
            }
        }
        open.add(window);
    }

    private void derived(AlignedBlock block) {
        if (block instanceof ProbeStart start) {
            starts[start.source()] = start;
            probe = start.source() == spec.probe() ? start : probe;
        } else if (!anyCapture && open.isEmpty() && block instanceof SampleRun run) {
            begin(1, EVERYTHING, run.arrival());
        }
        open.forEach(w -> w.take(block));
    }

    private void clocks() {
        for (int source = 0; source < sources; source++) {
            if (pipeline.knows(source) && starts[source] != null) {
                int number = source;
                pipeline.clock(number)
                        .ifPresent(
                                f ->
                                        open.forEach(
                                                w -> w.clock(number, starts[number].segment(), f)));
            }
        }
    }

    private void closeDone(HostNanos at) {
        if (!open.isEmpty() && open.get(0).doneBy(at)) {
            finish(open.remove(0));
        }
    }

    private void finish(CaptureWindow window) {
        Optional.ofNullable(probe)
                .ifPresent(
                        p ->
                                cut.add(
                                        new CutCapture(
                                                window.number(),
                                                window.capture(),
                                                window.finish(),
                                                p)));
    }
}
