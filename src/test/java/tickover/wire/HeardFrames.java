package tickover.wire;

import java.util.ArrayList;
import java.util.List;

/** Writes down what a decoder says, one line each. */
class HeardFrames implements FrameSink {
    final List<String> lines = new ArrayList<>();

    @Override
    public void hello(Hello hello) {
        lines.add(hello.toString());
    }

    @Override
    public void otherVersion(int major, int minor) {
        lines.add("otherVersion " + major + "." + minor);
    }

    @Override
    public void samples(SampleBlock b) {
        var s = new StringBuilder("samples " + b.number() + " @" + b.tick() + " " + b.bits());
        s.append(b.atLimit() ? " limit" : "");
        for (int i = 0; i < b.count(); i++) {
            for (int axis = 0; axis < b.axes(); axis++) {
                s.append(axis == 0 ? " " : ",").append(b.value(i, axis));
            }
        }
        lines.add(s.toString());
    }

    @Override
    public void tach(TachBlock b) {
        var s = new StringBuilder("tach " + b.number() + " missed " + b.missed());
        for (int i = 0; i < b.count(); i++) {
            s.append(' ').append(b.tick(i));
        }
        lines.add(s.toString());
    }

    @Override
    public void button(ButtonEvent event) {
        lines.add(event.toString());
    }

    @Override
    public void status(ProbeStatus status) {
        lines.add(status.toString());
    }

    @Override
    public void pong(Pong pong) {
        lines.add(pong.toString());
    }

    @Override
    public void answer(CommandAnswer answer) {
        lines.add(answer.toString());
    }

    @Override
    public void unknown(int type, int payloadBytes) {
        lines.add("unknown " + type + " " + payloadBytes);
    }

    @Override
    public void textLayout(TextLayout layout) {
        lines.add(layout.toString());
    }

    @Override
    public void textLine(TextLine line) {
        var s = new StringBuilder("line @" + line.tick());
        for (int axis = 0; axis < line.axes(); axis++) {
            s.append(axis == 0 ? " " : ",").append(line.value(axis));
        }
        s.append(line.hasRpm() ? " rpm " + line.rpm() : "");
        s.append(line.hasPulse() ? " pulse " + line.pulseTick() : "");
        lines.add(s.toString());
    }

    @Override
    public void rejected(Rejection reason, int bytes) {
        lines.add("rejected " + reason + " " + bytes);
    }
}
