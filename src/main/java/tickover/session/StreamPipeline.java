package tickover.session;

import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.ClockFit;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/**
 * Derives the aligned stream from the chunks of a recording, the same way whether they are arriving
 * or were read from a file: nothing but the chunks goes in, so the same chunks give the same blocks
 * to the last bit. One thread.
 */
final class StreamPipeline {
    private final Consumer<AlignedBlock> sink;
    private final TreeMap<Integer, SourceStream> sources = new TreeMap<>();

    /**
     * @param sink hears every block, in order
     */
    StreamPipeline(Consumer<AlignedBlock> sink) {
        this.sink = Objects.requireNonNull(sink, "sink");
    }

    /** Takes the next chunk. */
    void accept(Chunk chunk) {
        switch (chunk.kind()) {
            case SOURCE -> source(chunk);
            case IN -> {
                SourceStream stream = sources.get(chunk.source());
                if (stream != null) {
                    stream.in(chunk.bytes(), chunk.at());
                }
            }
            case OUT -> {
                SourceStream stream = sources.get(chunk.source());
                if (stream != null) {
                    stream.out(chunk.bytes(), chunk.at());
                }
            }
            case EVENT -> {
                SourceStream stream = sources.get(chunk.source());
                if (stream != null && LineReader.LOST.equals(eventWord(chunk))) {
                    stream.unplugged(chunk.at());
                }
            }
            case NOTE, WALL_TIME, END -> {}
        }
    }

    private void source(Chunk chunk) {
        SourceInfo info;
        try {
            info = SourceInfo.parse(chunk.bytes());
        } catch (JsonParseException e) {
            // A newer version's device: its bytes stay in the recording and are passed over here.
            return;
        }
        sources.put(chunk.source(), SourceStream.of(chunk.source(), new SourceState(info), sink));
    }

    /** Bytes of the recording are missing after a moment: nothing may be joined across. */
    void damaged(HostNanos lastGood) {
        sources.values().forEach(s -> s.damaged(lastGood));
    }

    /** Nothing more comes. */
    void end() {
        sources.values().forEach(SourceStream::end);
    }

    /** Whether a device is one that this program can read. */
    boolean knows(int source) {
        return sources.containsKey(source);
    }

    /** A device's clock against the host's, if it has one and it is known. */
    Optional<ClockFit> clock(int source) {
        return Objects.requireNonNull(sources.get(source), "source").clock();
    }

    /** What is known of one device; its SOURCE chunk must have come. */
    SourceState state(int source) {
        return Objects.requireNonNull(sources.get(source), "source").state();
    }

    /** What is known of every device, by number. */
    List<SourceState> states() {
        List<SourceState> all = new ArrayList<>();
        sources.values().forEach(s -> all.add(s.state()));
        return all;
    }

    static boolean isBack(Chunk chunk) {
        return chunk.kind() == Chunk.Kind.EVENT && LineReader.BACK.equals(eventWord(chunk));
    }

    private static String eventWord(Chunk chunk) {
        try {
            String text = new String(chunk.bytes(), StandardCharsets.UTF_8);
            return JsonParser.parseString(text).getAsJsonObject().get("event").getAsString();
        } catch (JsonParseException
                | IllegalStateException
                | UnsupportedOperationException
                | NullPointerException e) {
            return "";
        }
    }
}
