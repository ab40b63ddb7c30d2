package tickover.session;

import com.google.gson.JsonParseException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingReader;
import tickover.unit.HostNanos;

/**
 * What a recording says of itself, found by reading it through once.
 *
 * @param start which it is and when it began
 * @param vehicleToml text of the vehicle's description; empty if there is none
 * @param tachPulley the pulley that carries the tach's mark
 * @param pulsesPerTurn marks on it
 * @param probe number of the device that samples
 * @param sources devices are numbered from 0 to below this
 * @param captures captures that were begun
 * @param unreadable notes and descriptions of devices that could not be read
 */
record RecordingFacts(
        RecordingStart start,
        String vehicleToml,
        String tachPulley,
        int pulsesPerTurn,
        int probe,
        int sources,
        int captures,
        int unreadable) {
    RecordingFacts {
        Objects.requireNonNull(start, "start");
        Objects.requireNonNull(vehicleToml, "vehicleToml");
        Objects.requireNonNull(tachPulley, "tachPulley");
    }

    static RecordingFacts of(Path file) {
        RecordingReader reader = RecordingReader.open(file);
        Pass pass = new Pass();
        reader.forEach(pass);
        return new RecordingFacts(
                pass.start.found(file, reader),
                pass.vehicle,
                pass.pulley,
                pass.pulses,
                pass.probe,
                pass.sources,
                pass.captures,
                pass.unreadable);
    }

    /** What is not as it should be, in whole sentences. */
    List<String> remarks() {
        List<String> all = new ArrayList<>();
        if (!start.remark().isEmpty()) {
            all.add(start.remark());
        }
        if (unreadable > 0) {
            all.add(
                    unreadable
                            + (unreadable == 1 ? " note" : " notes")
                            + " in the recording could not be read and"
                            + (unreadable == 1 ? " was" : " were")
                            + " left out; a newer Tickover may know more.");
        }
        return all;
    }

    private static final class Pass implements ChunkSink {
        private final RecordingStart.Finder start = new RecordingStart.Finder();
        private String vehicle = "";
        private String pulley = "crank";
        private int pulses = 1;
        private int captures;
        private int probe;
        private int sources;
        private int unreadable;

        @Override
        public void chunk(Chunk chunk) {
            start.chunk(chunk);
            if (chunk.kind() == Chunk.Kind.SOURCE) {
                sources = Math.max(sources, chunk.source() + 1);
                try {
                    if (SourceInfo.parse(chunk.bytes()).role() == SourceInfo.Role.PROBE) {
                        probe = chunk.source();
                    }
                } catch (JsonParseException e) {
                    unreadable++;
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
                case UNREADABLE -> unreadable++;
            }
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {}
    }
}
