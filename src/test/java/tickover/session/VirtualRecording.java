package tickover.session;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import tickover.link.Chunk;
import tickover.link.RecordingHeader;
import tickover.link.RecordingWriter;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedDevice;
import tickover.unit.HostNanos;

/**
 * Records from simulated devices in simulated time: the same drivers talk, the same chunks are
 * written, and ten minutes take a second.
 */
public final class VirtualRecording {
    private static final double STEP_S = 0.002;
    private static final Instant STARTED = Instant.parse("2026-10-14T07:30:00Z");

    /**
     * A device on its line.
     *
     * @param info what stands in the recording
     * @param device the device
     * @param trouble what the line does to its bytes
     */
    public record Device(SourceInfo info, SimulatedDevice device, LineTrouble trouble) {}

    /**
     * A note at a time.
     *
     * @param atS when, s
     * @param note the note
     */
    private record TimedNote(double atS, RecordingNote note) {}

    private final List<Device> devices;
    private final List<TimedNote> notes = new ArrayList<>();
    private final List<Double> unplugsS = new ArrayList<>();

    public VirtualRecording(List<Device> devices) {
        this.devices = List.copyOf(devices);
        note(0, RecordingNote.tach("crank", 1));
    }

    private void note(double atS, RecordingNote note) {
        notes.add(new TimedNote(atS, note));
    }

    public VirtualRecording vehicle(String toml) {
        note(0, RecordingNote.vehicle(toml));
        return this;
    }

    public VirtualRecording capture(PlannedCapture capture, double fromS, double toS) {
        int number = 1 + (int) notes.stream().filter(n -> isBegin(n.note())).count();
        note(fromS, RecordingNote.begins(number, capture));
        note(toS, RecordingNote.ends(number));
        return this;
    }

    private static boolean isBegin(RecordingNote note) {
        return note.kind() == RecordingNote.Kind.BEGIN;
    }

    /** Unplugs the first device for a second; it has no power meanwhile. */
    public VirtualRecording unplug(double atS) {
        unplugsS.add(atS);
        return this;
    }

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    /** Writes the recording. */
    public void write(Path file, double lengthS) {
        notes.sort(Comparator.comparingDouble(TimedNote::atS));
        UUID id = UUID.nameUUIDFromBytes(file.getFileName().toString().getBytes(UTF_8));
        try (RecordingWriter writer =
                RecordingWriter.create(file, new RecordingHeader(id, at(0), STARTED))) {
            StreamPipeline pipeline = new StreamPipeline(b -> {});
            new Run(writer, pipeline).run(lengthS);
        }
    }

    private static final java.nio.charset.Charset UTF_8 = java.nio.charset.StandardCharsets.UTF_8;

    /** One writing. */
    private final class Run {
        private final RecordingWriter writer;
        private final StreamPipeline pipeline;
        private final List<LineKeeper> keepers = new ArrayList<>();
        private final double[] arrivedS = new double[devices.size()];
        private double backS = -1;

        Run(RecordingWriter writer, StreamPipeline pipeline) {
            this.writer = writer;
            this.pipeline = pipeline;
        }

        void run(double lengthS) {
            for (int i = 0; i < devices.size(); i++) {
                keep(new Chunk(Chunk.Kind.SOURCE, i, at(0), devices.get(i).info().json()));
                keepers.add(new LineKeeper(i, devices.get(i).info(), pipeline));
                keepers.get(i).opened(at(0));
            }
            int next = 0;
            int unplugs = 0;
            for (int step = 0; step * STEP_S < lengthS; step++) {
                double nowS = step * STEP_S;
                while (next < notes.size() && notes.get(next).atS() <= nowS) {
                    keep(new Chunk(Chunk.Kind.NOTE, 0, at(nowS), notes.get(next++).note().json()));
                }
                if (unplugs < unplugsS.size() && unplugsS.get(unplugs) <= nowS) {
                    unplugs++;
                    backS = nowS + 1;
                    event(LineReader.LOST, nowS);
                }
                if (backS > 0 && nowS >= backS) {
                    backS = -1;
                    devices.get(0).device().powerCycle(nowS);
                    event(LineReader.BACK, nowS);
                }
                for (int i = 0; i < devices.size(); i++) {
                    if (i > 0 || backS < 0) {
                        exchange(i, nowS);
                    }
                }
            }
        }

        private void event(String word, double nowS) {
            byte[] json = ("{\"event\":\"" + word + "\",\"text\":\"\"}").getBytes(UTF_8);
            Chunk chunk = new Chunk(Chunk.Kind.EVENT, 0, at(nowS), json);
            keep(chunk);
            keepers.get(0).heard(chunk);
        }

        private void exchange(int i, double nowS) {
            Device d = devices.get(i);
            byte[] bytes = d.device().sentBy(nowS);
            if (bytes.length > 0) {
                byte[] damaged = d.trouble().damaged(bytes);
                arrivedS[i] = Math.max(arrivedS[i], d.trouble().arrivalS(nowS));
                Chunk chunk = new Chunk(Chunk.Kind.IN, i, at(arrivedS[i]), damaged);
                keep(chunk);
                keepers.get(i).heard(chunk);
            }
            for (byte[] message : keepers.get(i).due(at(nowS))) {
                keep(new Chunk(Chunk.Kind.OUT, i, at(nowS), message));
                d.device().hear(message, nowS);
            }
        }

        private void keep(Chunk chunk) {
            writer.append(chunk);
            pipeline.accept(chunk);
        }
    }
}
