package tickover.align;

import java.util.Objects;
import java.util.Optional;
import java.util.function.Consumer;
import tickover.unit.HostNanos;
import tickover.wire.ButtonEvent;
import tickover.wire.CommandAnswer;
import tickover.wire.FrameSink;
import tickover.wire.Hello;
import tickover.wire.Pong;
import tickover.wire.ProbeStatus;
import tickover.wire.Rejection;
import tickover.wire.SampleBlock;
import tickover.wire.TachBlock;
import tickover.wire.TextLayout;
import tickover.wire.TextLine;

/**
 * Turns what one source's decoder finds into blocks on one time base.
 *
 * <p>In: the calls of {@link FrameSink}, and before each chunk {@link #at}; pings that went out;
 * unplugs and damage. <br>
 * Out: {@link AlignedBlock}s in order. Missing samples are told by number and cause; after a gap up
 * to 2 s of blocks wait for the probe's status, which tells dropped from lost. Frames that
 * contradict their neighbours are left out and counted; before a probe has said what it is nothing
 * is passed on, and what came by then is kept for a while. <br>
 * The same calls give the same blocks: there is no clock and no chance in it. Memory: fixed.
 * Thread: one.
 */
public final class Aligner implements FrameSink {
    private static final int START = 0x43;
    private static final int PINGS = 32;
    private static final double LONGEST_PING_S = 10;

    private final ProbeStream probe;
    private final TextStream text;
    private final long[] pingIds = new long[PINGS];
    private final HostNanos[] pingTimes = new HostNanos[PINGS];
    private int pings;
    private long strayPongs;
    private HostNanos now = new HostNanos(0);

    /**
     * @param source 0-based number of the source in its recording
     * @param scale what a plain-text probe's numbers are worth where its header does not say
     * @param sink takes the blocks
     */
    public Aligner(int source, TextScale scale, Consumer<AlignedBlock> sink) {
        Objects.requireNonNull(sink, "sink");
        probe = new ProbeStream(source, sink);
        text = new TextStream(source, Objects.requireNonNull(scale, "scale"), sink);
    }

    /**
     * Says when the bytes arrived that are decoded next.
     *
     * @param arrival arrival of the chunk
     */
    public void at(HostNanos arrival) {
        now = Objects.requireNonNull(arrival, "arrival");
        probe.at(arrival);
        text.flush();
    }

    /**
     * A ping goes out.
     *
     * @param id its number
     * @param sent just before it is handed to the line
     */
    public void pinged(long id, HostNanos sent) {
        pingIds[pings % PINGS] = id;
        pingTimes[pings % PINGS] = Objects.requireNonNull(sent, "sent");
        pings++;
    }

    /**
     * The device was unplugged, or its port failed.
     *
     * @param at when the host noticed
     */
    public void unplugged(HostNanos at) {
        now = Objects.requireNonNull(at, "at");
        probe.interrupted(StreamGap.Cause.UNPLUGGED, at);
        text.interrupted(StreamGap.Cause.UNPLUGGED, at);
    }

    /**
     * Bytes of the recording are damaged or missing.
     *
     * @param at where
     */
    public void damaged(HostNanos at) {
        now = Objects.requireNonNull(at, "at");
        probe.interrupted(StreamGap.Cause.RECORDING_DAMAGED, at);
        text.interrupted(StreamGap.Cause.RECORDING_DAMAGED, at);
    }

    /** Nothing more comes: hands on what still waits. */
    public void finish() {
        probe.finish();
        text.finish();
    }

    /**
     * Returns the device's clock against the host's.
     *
     * @return empty until there are some seconds of data
     */
    public Optional<ClockFit> clock() {
        return text.used() ? text.clock() : probe.clock();
    }

    /**
     * Returns what was not passed on.
     *
     * @return counts since the start
     */
    public AlignTally tally() {
        return probe.tally(text.implausible(), strayPongs, text.linesWithoutUnit());
    }

    /**
     * Returns whether frames came but nothing said what the probe is: it has to be asked.
     *
     * @return true if a HELLO is needed
     */
    public boolean waitsForHello() {
        return probe.waitsForHello();
    }

    /**
     * Returns whether lines came but nobody says what their numbers are worth.
     *
     * @return true if a {@link TextScale} is needed
     */
    public boolean waitsForUnit() {
        return text.waitsForUnit();
    }

    @Override
    public void hello(Hello hello) {
        probe.hello(hello, now);
    }

    @Override
    public void samples(SampleBlock block) {
        probe.samples(SampleFrame.of(now, block));
    }

    @Override
    public void tach(TachBlock block) {
        long[] ticks = new long[block.count()];
        for (int i = 0; i < ticks.length; i++) {
            ticks[i] = block.tick(i);
        }
        probe.tach(block.number(), block.missed(), ticks, now);
    }

    @Override
    public void button(ButtonEvent event) {
        probe.button(event, now);
    }

    @Override
    public void status(ProbeStatus status) {
        probe.status(status, now);
    }

    @Override
    public void pong(Pong pong) {
        for (int i = Math.max(0, pings - PINGS); i < pings; i++) {
            HostNanos sent = pingTimes[i % PINGS];
            double tookS = now.secondsAfter(sent);
            // An answer from before the question belongs to a ping of an earlier recording.
            if (pingIds[i % PINGS] == pong.id() && tookS >= 0 && tookS < LONGEST_PING_S) {
                probe.pong(pong, sent, now);
                return;
            }
        }
        strayPongs++;
    }

    @Override
    public void answer(CommandAnswer answer) {
        if (answer.command() == START && answer.result() == 0) {
            probe.started();
        }
    }

    @Override
    public void unknown(int type, int payloadBytes) {
        // A later version's frame; the decoder counts it.
    }

    @Override
    public void textLayout(TextLayout layout) {
        text.layout(layout, now);
    }

    @Override
    public void textLine(TextLine line) {
        text.line(line, now);
    }

    @Override
    public void rejected(Rejection reason, int bytes) {
        probe.rejected();
    }
}
