package tickover.wire;

/** Reads everything it is handed and keeps only sums; allocates nothing. */
final class SummingSink implements FrameSink {
    long sum;
    long blocks;
    long rejectedBytes;
    long rejections;
    long frames;
    long badChecksums;
    long badFields;

    @Override
    public void hello(Hello hello) {
        frames++;
    }

    @Override
    public void otherVersion(int major, int minor) {
        frames++;
    }

    @Override
    public void samples(SampleBlock b) {
        long s = b.tick() ^ b.number();
        for (int i = 0; i < b.count(); i++) {
            for (int axis = 0; axis < b.axes(); axis++) {
                s = 31 * s + b.value(i, axis);
            }
        }
        sum = 31 * sum + s;
        blocks++;
        frames++;
    }

    @Override
    public void tach(TachBlock b) {
        for (int i = 0; i < b.count(); i++) {
            sum = 31 * sum + b.tick(i);
        }
        frames++;
    }

    @Override
    public void button(ButtonEvent event) {
        frames++;
    }

    @Override
    public void status(ProbeStatus status) {
        frames++;
    }

    @Override
    public void pong(Pong pong) {
        frames++;
    }

    @Override
    public void answer(CommandAnswer answer) {
        frames++;
    }

    @Override
    public void unknown(int type, int payloadBytes) {
        sum = 31 * sum + type;
        frames++;
    }

    @Override
    public void textLayout(TextLayout layout) {
        frames++;
    }

    @Override
    public void textLine(TextLine line) {
        sum = 31 * sum + line.tick();
        for (int axis = 0; axis < line.axes(); axis++) {
            sum = 31 * sum + Double.doubleToRawLongBits(line.value(axis));
        }
        frames++;
    }

    @Override
    public void rejected(Rejection reason, int bytes) {
        sum = 31 * sum + bytes;
        rejections++;
        badChecksums += reason == Rejection.BAD_CHECKSUM ? 1 : 0;
        badFields += reason == Rejection.BAD_FIELDS ? 1 : 0;
        rejectedBytes += bytes;
    }
}
