package tickover.session;

import java.util.Locale;
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

/** Listens for what a probe calls itself, and hears nothing else. */
final class NameFinder implements FrameSink {
    private String name = "";
    private String columns = "";

    /** The probe's name and what it measures; empty as long as it has not said so. */
    String name() {
        return name;
    }

    /** The header of a plain-text probe; empty as long as it has sent none. */
    String columns() {
        return columns;
    }

    @Override
    public void hello(Hello hello) {
        name =
                String.format(
                        Locale.ROOT,
                        "%s, %s, %.0f samples/s, to %.1f m/s²%s",
                        hello.name().isEmpty() ? "no name" : hello.name(),
                        hello.axes() == 1 ? "1 axis" : hello.axes() + " axes",
                        hello.rateHz(),
                        hello.fullScaleMps2(),
                        hello.hasTach() ? ", with tach" : "");
    }

    @Override
    public void otherVersion(int major, int minor) {
        name = "protocol version " + major + "." + minor + ", which this program does not speak";
    }

    @Override
    public void samples(SampleBlock block) {}

    @Override
    public void tach(TachBlock block) {}

    @Override
    public void button(ButtonEvent event) {}

    @Override
    public void status(ProbeStatus status) {}

    @Override
    public void pong(Pong pong) {}

    @Override
    public void answer(CommandAnswer answer) {}

    @Override
    public void unknown(int type, int payloadBytes) {}

    @Override
    public void textLayout(TextLayout layout) {
        columns = layout.header();
        name = "columns " + columns;
    }

    @Override
    public void textLine(TextLine line) {}

    @Override
    public void rejected(Rejection reason, int bytes) {}
}
