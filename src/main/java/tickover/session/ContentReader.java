package tickover.session;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import tickover.align.AlignedBlock;
import tickover.align.SampleRun;
import tickover.align.StreamGap;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingIndex;
import tickover.link.RecordingReader;
import tickover.unit.HostNanos;
import tickover.wire.ByteTally;

/** Reads a recording once from begin to end and notes what it holds. */
final class ContentReader {
    private final Path file;
    private final StreamPipeline pipeline = new StreamPipeline(this::derived);
    private final LiveMeter meter;
    private final List<LiveReading> readings = new ArrayList<>();
    private final List<RecordingContent.Gap> gaps = new ArrayList<>();
    private final List<RecordingContent.Captured> captures = new ArrayList<>();
    private RecordingNote begun;
    private HostNanos begunAt;
    private HostNanos origin;
    private long samplesSoFar;
    private long samplesAtBegin;
    private long damagedBytes;

    ContentReader(Path file) {
        this.file = file;
        this.meter = new LiveMeter(readings::add);
    }

    RecordingContent read() {
        RecordingReader reader = RecordingReader.open(file);
        RecordingIndex index = reader.index();
        RecordingFacts facts = RecordingFacts.of(file);
        RecordingStart start = facts.start();
        origin = start.at();
        reader.forEach(
                new ChunkSink() {
                    @Override
                    public void chunk(Chunk chunk) {
                        meter.told(chunk);
                        pipeline.accept(chunk);
                        if (chunk.kind() == Chunk.Kind.NOTE) {
                            RecordingNote.parse(chunk.bytes()).ifPresent(n -> note(n, chunk.at()));
                        }
                    }

                    @Override
                    public void damaged(long offset, long bytes, HostNanos lastGood) {
                        damagedBytes += bytes;
                        pipeline.damaged(lastGood);
                    }
                });
        pipeline.end();
        HostNanos last = index.last();
        endCapture(last);
        return new RecordingContent(
                file,
                start.id(),
                start.wall(),
                last.secondsAfter(origin),
                index.closedProperly(),
                damagedBytes,
                sources(),
                gaps,
                captures,
                readings,
                facts.remarks());
    }

    private void derived(AlignedBlock block) {
        meter.accept(block);
        if (block instanceof SampleRun run) {
            samplesSoFar += run.count();
        } else if (block instanceof StreamGap gap) {
            OptionalLong missing = gap.missing();
            gaps.add(
                    new RecordingContent.Gap(
                            gap.source(),
                            gap.segment(),
                            gap.at().secondsAfter(origin),
                            gap.cause().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                            why(gap.cause()),
                            gap.firstMissing(),
                            missing.orElse(-1)));
        }
    }

    private void note(RecordingNote note, HostNanos at) {
        switch (note.kind()) {
            case BEGIN -> {
                endCapture(at);
                begun = note;
                begunAt = at;
                samplesAtBegin = samplesSoFar;
            }
            case END -> endCapture(at);
            case TACH, VEHICLE, UNREADABLE -> {}
        }
    }

    private void endCapture(HostNanos at) {
        if (begun != null) {
            captures.add(
                    new RecordingContent.Captured(
                            begun.number(),
                            begun.capture(),
                            begunAt.secondsAfter(origin),
                            at.secondsAfter(origin),
                            samplesSoFar - samplesAtBegin));
            begun = null;
        }
    }

    private List<RecordingContent.Source> sources() {
        List<RecordingContent.Source> all = new ArrayList<>();
        for (SourceState s : pipeline.states()) {
            ByteTally tally = s.tally();
            all.add(
                    new RecordingContent.Source(
                            s.info(),
                            s.name(),
                            tally.in(),
                            tally.framed(),
                            tally.rejected(),
                            tally.pending(),
                            s.samples(),
                            s.lostSamples(),
                            s.edges(),
                            s.speedReadings()));
        }
        return all;
    }

    private static String why(StreamGap.Cause cause) {
        return switch (cause) {
            case LOST_ON_LINE -> "lost or damaged on the line";
            case DROPPED_BY_PROBE -> "dropped by the probe, which could not keep up";
            case RESET -> "the probe restarted";
            case UNPLUGGED -> "the port was gone";
            case RESTARTED -> "sampling was started again";
            case CLOCK_STEP -> "a clock jumped";
            case RECORDING_DAMAGED -> "the recording is damaged here";
        };
    }
}
