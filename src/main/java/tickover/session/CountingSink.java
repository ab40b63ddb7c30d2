package tickover.session;

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

/** Notes what a person wants to know of a device, and passes every frame on. */
final class CountingSink implements FrameSink {
    private final SourceState state;
    private final FrameSink next;
    private HostNanos at = new HostNanos(0);

    CountingSink(SourceState state, FrameSink next) {
        this.state = state;
        this.next = next;
    }

    /** Says when the bytes arrived that are decoded next. */
    void arrival(HostNanos value) {
        at = value;
    }

    @Override
    public void hello(Hello hello) {
        state.hello(hello);
        next.hello(hello);
    }

    @Override
    public void otherVersion(int major, int minor) {
        state.problem(
                "the probe on "
                        + state.info().port()
                        + " speaks protocol version "
                        + major
                        + "."
                        + minor
                        + " and this program speaks version "
                        + Hello.MAJOR
                        + "; update the older of the two");
        next.otherVersion(major, minor);
    }

    @Override
    public void samples(SampleBlock block) {
        state.flow();
        next.samples(block);
    }

    @Override
    public void tach(TachBlock block) {
        state.flow();
        next.tach(block);
    }

    @Override
    public void button(ButtonEvent event) {
        state.button().heard(event, at);
        next.button(event);
    }

    @Override
    public void status(ProbeStatus status) {
        state.flow();
        next.status(status);
    }

    @Override
    public void pong(Pong pong) {
        state.pong();
        next.pong(pong);
    }

    @Override
    public void answer(CommandAnswer answer) {
        next.answer(answer);
    }

    @Override
    public void unknown(int type, int payloadBytes) {
        next.unknown(type, payloadBytes);
    }

    @Override
    public void textLayout(TextLayout layout) {
        state.layout();
        next.textLayout(layout);
    }

    @Override
    public void textLine(TextLine line) {
        state.flow();
        next.textLine(line);
    }

    @Override
    public void rejected(Rejection reason, int bytes) {
        next.rejected(reason, bytes);
    }
}
