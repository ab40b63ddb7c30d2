package tickover.wire;

/**
 * Says from its first bytes what a device is. For discovery: send nothing and listen, then send
 * IDENTIFY, then a carriage return, and feed all that comes.
 *
 * <p>One sound frame is proof enough, for noise makes one in some four thousand million bytes.
 * Commands that a device merely echoes do not count. Thread: one.
 */
public final class StreamSniffer {
    /** What the device is. */
    public enum Verdict {
        /** Not known yet. */
        UNKNOWN,
        /** Speaks the probe protocol. */
        PROBE,
        /** Sends lines of numbers under a header that says what they are. */
        TEXT_PROBE,
        /** Sends lines of numbers; a person has to say what they are. */
        TEXT_WITHOUT_HEADER,
        /** Answers with the prompt of a serial adapter that takes text commands. */
        ADAPTER
    }

    private static final int LINES_FOR_A_TEXT = 3;

    /** Adapters speak plain ASCII; at a wrong line rate two bytes of three are not. */
    private static final int MOST_UNREADABLE = 20;

    private final FrameDecoder frames = new FrameDecoder();
    private final TextDecoder text = new TextDecoder();
    private final Evidence evidence = new Evidence();
    private Verdict verdict = Verdict.UNKNOWN;
    private long seen;
    private long unreadable;
    private byte before;
    private int columns;
    private int sameColumns;
    private int separators;
    private boolean numeric = true;
    private boolean firstLine = true;

    /** Creates a sniffer that has seen nothing yet. */
    public StreamSniffer() {}

    /**
     * Takes the next bytes.
     *
     * @param bytes read only during the call
     * @param from first byte
     * @param count number of bytes
     * @return what the device is; once known it stays
     */
    public Verdict feed(byte[] bytes, int from, int count) {
        for (int i = from; i < from + count && verdict == Verdict.UNKNOWN; i++) {
            frames.feed(bytes, i, 1, evidence);
            text.feed(bytes, i, 1, evidence);
            look(bytes[i]);
            if (evidence.frames > 0) {
                verdict = Verdict.PROBE;
            } else if (evidence.lines > 0) {
                verdict = Verdict.TEXT_PROBE;
            }
        }
        return verdict;
    }

    /**
     * Returns what is known so far.
     *
     * @return what the device is
     */
    public Verdict verdict() {
        return verdict;
    }

    private void look(byte b) {
        boolean lineEnd = b == '\r' || b == '\n';
        if (b != 0 && !lineEnd && b != '\t' && !(b >= ' ' && b < 0x7F)) {
            unreadable++;
        }
        seen++;
        boolean readable = unreadable * MOST_UNREADABLE <= seen;
        if (b == '>' && (before == '\r' || before == '\n') && readable) {
            verdict = Verdict.ADAPTER;
        } else if (lineEnd) {
            lineEnds();
        } else {
            boolean separator = b == ',' || b == ';' || b == '\t' || (b == ' ' && before != ' ');
            separators += separator ? 1 : 0;
            numeric &= separator || b == ' ' || "0123456789+-.eE".indexOf(b) >= 0;
        }
        before = b == 0 ? before : b;
    }

    /** Three lines of numbers with as many columns, the first of all left out: it may be cut. */
    private void lineEnds() {
        if (before == '\r' || before == '\n') {
            return; // an empty line
        }
        boolean counts = numeric && separators > 0 && !firstLine && evidence.layouts == 0;
        sameColumns = counts ? (separators == columns ? sameColumns + 1 : 1) : 0;
        columns = separators;
        firstLine = false;
        separators = 0;
        numeric = true;
        if (sameColumns == LINES_FOR_A_TEXT) {
            verdict = Verdict.TEXT_WITHOUT_HEADER;
        }
    }

    private static final class Evidence implements FrameSink {
        private int frames;
        private int layouts;
        private int lines;

        @Override
        public void hello(Hello hello) {
            frames++;
        }

        @Override
        public void otherVersion(int major, int minor) {
            frames++;
        }

        @Override
        public void samples(SampleBlock block) {
            frames++;
        }

        @Override
        public void tach(TachBlock block) {
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
        public void unknown(int type, int payloadBytes) {}

        @Override
        public void textLayout(TextLayout layout) {
            layouts++;
        }

        @Override
        public void textLine(TextLine line) {
            lines++;
        }

        @Override
        public void rejected(Rejection reason, int bytes) {}
    }
}
