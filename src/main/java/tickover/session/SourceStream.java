package tickover.session;

import java.util.Optional;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.Aligner;
import tickover.align.ClockFit;
import tickover.align.SpeedReading;
import tickover.align.TextScale;
import tickover.unit.HostNanos;
import tickover.wire.CommandDecoder;
import tickover.wire.CommandSink;
import tickover.wire.FrameDecoder;
import tickover.wire.ObdReader;
import tickover.wire.ObdReading;
import tickover.wire.ObdSink;
import tickover.wire.ObdState;
import tickover.wire.Rejection;
import tickover.wire.StreamDecoder;
import tickover.wire.TextDecoder;

/** Bytes of one device on their way to aligned blocks. One thread. */
interface SourceStream {
    SourceState state();

    void in(byte[] bytes, HostNanos at);

    void out(byte[] bytes, HostNanos at);

    void unplugged(HostNanos at);

    void damaged(HostNanos lastGood);

    void end();

    /** The device's clock against the host's, if it has one and it is known. */
    default Optional<ClockFit> clock() {
        return Optional.empty();
    }

    static SourceStream of(int source, SourceState state, Consumer<AlignedBlock> sink) {
        return switch (state.info().language()) {
            case FRAMES, TEXT -> new Probe(source, state, sink);
            case COMMANDS -> new Adapter(source, state, sink);
        };
    }

    /** A board that sends frames or lines. */
    final class Probe implements SourceStream {
        /** A system keeps up to 4 KiB of what a board sent before it was restarted. */
        private static final long UNTOLD_BYTES = 4096;

        private final SourceState state;
        private final StreamDecoder decoder;
        private final Aligner aligner;
        private final CountingSink counting;
        private final CommandDecoder commands = new CommandDecoder();

        Probe(int source, SourceState state, Consumer<AlignedBlock> sink) {
            this.state = state;
            SourceInfo info = state.info();
            this.decoder =
                    switch (info.language()) {
                        case FRAMES, COMMANDS -> new FrameDecoder();
                        case TEXT ->
                                info.header().isEmpty()
                                        ? new TextDecoder()
                                        : TextDecoder.withLayout(info.header());
                    };
            this.aligner =
                    new Aligner(
                            source,
                            new TextScale(info.unit(), info.countMps2()),
                            b -> {
                                state.derived(b);
                                sink.accept(b);
                            });
            this.counting = new CountingSink(state, aligner);
        }

        @Override
        public SourceState state() {
            return state;
        }

        @Override
        public void in(byte[] bytes, HostNanos at) {
            counting.arrival(at);
            aligner.at(at);
            decoder.feed(bytes, 0, bytes.length, counting);
            state.tally(decoder.tally());
            if (state.info().language() == SourceInfo.Language.TEXT
                    && !state.hasLayout()
                    && state.rejectedBytes() > UNTOLD_BYTES) {
                state.problem(
                        "lines come from "
                                + state.info().port()
                                + " and no header that says what they are: add --columns, such as"
                                + " --columns t_us,ax,ay,az, once, or restart the board");
            }
            if (aligner.waitsForUnit()) {
                state.problem(
                        "the probe on "
                                + state.info().port()
                                + " does not say what its numbers are: add --units g, mg, mps2 or"
                                + " counts, once");
            }
        }

        @Override
        public void out(byte[] bytes, HostNanos at) {
            commands.feed(
                    bytes,
                    0,
                    bytes.length,
                    new CommandSink() {
                        @Override
                        public void ping(long id) {
                            aligner.pinged(id, at);
                        }

                        @Override
                        public void identify() {}

                        @Override
                        public void start() {}

                        @Override
                        public void stop() {}

                        @Override
                        public void rate(long num, long den) {}

                        @Override
                        public void unknown(int type) {}

                        @Override
                        public void rejected(Rejection reason, int count) {}
                    });
        }

        @Override
        public void unplugged(HostNanos at) {
            decoder.reset();
            state.tally(decoder.tally());
            aligner.unplugged(at);
        }

        @Override
        public void damaged(HostNanos lastGood) {
            decoder.reset();
            state.tally(decoder.tally());
            aligner.damaged(lastGood);
        }

        @Override
        public void end() {
            aligner.finish();
        }

        @Override
        public Optional<ClockFit> clock() {
            return aligner.clock();
        }
    }

    /** An adapter on the diagnostic socket. */
    final class Adapter implements SourceStream {
        private final SourceState state;
        private final ObdReader reader = new ObdReader();
        private final ObdSink values;

        Adapter(int source, SourceState state, Consumer<AlignedBlock> sink) {
            this.state = state;
            this.values = new SpeedSink(source, state, sink);
        }

        @Override
        public SourceState state() {
            return state;
        }

        @Override
        public void in(byte[] bytes, HostNanos at) {
            reader.feed(bytes, 0, bytes.length, at, values);
            state.tally(reader.tally());
        }

        @Override
        public void out(byte[] bytes, HostNanos at) {
            reader.sent(bytes, at);
            state.tally(reader.tally());
        }

        @Override
        public void unplugged(HostNanos at) {
            reader.reset();
            state.tally(reader.tally());
        }

        @Override
        public void damaged(HostNanos lastGood) {
            unplugged(lastGood);
        }

        @Override
        public void end() {}
    }

    /** Passes engine speed on as it is read. */
    final class SpeedSink implements ObdSink {
        private final int source;
        private final SourceState state;
        private final Consumer<AlignedBlock> sink;

        SpeedSink(int source, SourceState state, Consumer<AlignedBlock> sink) {
            this.source = source;
            this.state = state;
            this.sink = sink;
        }

        @Override
        public void send(byte[] bytes) {}

        @Override
        public void reading(ObdReading reading) {
            if (reading.quantity() == ObdReading.Quantity.ENGINE_SPEED_RPM) {
                SpeedReading speed =
                        new SpeedReading(
                                source, reading.asked(), reading.answered(), reading.value());
                state.flow();
                state.derived(speed);
                sink.accept(speed);
            }
        }

        @Override
        public void vin(String vin) {
            state.named("vehicle " + vin);
        }

        @Override
        public void state(ObdState value) {}

        @Override
        public void controlUnit(String chosen, int answering) {}
    }
}
