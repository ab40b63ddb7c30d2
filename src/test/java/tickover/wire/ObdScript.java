package tickover.wire;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tickover.unit.HostNanos;

/** An adapter that behaves as a script says, and what is to come of it. */
final class ObdScript {
    private static final double STEP_S = 0.01;

    final List<String> log = new ArrayList<>();
    final List<String> expected = new ArrayList<>();
    final List<String> forbidden = new ArrayList<>();
    final List<ObdReading> readings = new ArrayList<>();

    /** Everything that went over the line, for a reader alone to read again. */
    final List<Piece> pieces = new ArrayList<>();

    double untilS;
    int leastSpeeds;
    double longestPauseS;
    private final Map<String, Deque<String[]>> rules = new HashMap<>();
    private final Deque<Piece> coming = new ArrayDeque<>();
    private double nowS;
    private double toldS;
    private double lastSentS;

    /** Bytes in one direction. */
    record Piece(boolean out, String text, double atS) {
        byte[] bytes() {
            return text.getBytes(StandardCharsets.ISO_8859_1);
        }

        HostNanos at() {
            return new HostNanos(0).plusS(atS);
        }
    }

    static ObdScript of(String name) throws IOException {
        ObdScript script = new ObdScript();
        try (InputStream in = ObdScript.class.getResourceAsStream(name)) {
            String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            all.lines().filter(l -> !l.startsWith("#")).forEach(script::line);
        }
        return script;
    }

    private void line(String line) {
        if (line.startsWith("expect ")) {
            expected.add(line.substring(7));
        } else if (line.startsWith("never ")) {
            forbidden.add(line.substring(6));
        } else if (line.startsWith("until ")) {
            untilS = Double.parseDouble(line.substring(6));
        } else if (line.startsWith("speeds at least ")) {
            leastSpeeds = Integer.parseInt(line.substring(16));
        } else {
            String[] rule = line.split("\\|", 3);
            rules.computeIfAbsent(rule[0].strip(), k -> new ArrayDeque<>()).add(rule);
        }
    }

    void run(ObdDialogue dialogue) {
        ObdSink sink = new Log();
        for (int step = 0; nowS < untilS; step++) {
            nowS = step * STEP_S;
            while (!coming.isEmpty() && coming.element().atS() <= nowS) {
                Piece piece = coming.remove();
                pieces.add(piece);
                toldS = piece.atS();
                dialogue.feed(piece.bytes(), 0, piece.bytes().length, piece.at(), sink);
            }
            toldS = nowS;
            dialogue.tick(new HostNanos(0).plusS(nowS), sink);
        }
    }

    private void answer(String command) {
        Deque<String[]> answers = rules.getOrDefault(command, rules.get("*"));
        if (answers == null) {
            throw new IllegalStateException("the script has no answer to " + command);
        }
        String[] rule = answers.size() > 1 ? answers.remove() : answers.element();
        if (!rule[1].strip().equals("never")) {
            String text = rule[2].strip().replace("\\r", "\r").replace("\\0", "\0");
            coming.add(new Piece(false, text, toldS + Double.parseDouble(rule[1].strip())));
        }
    }

    private final class Log implements ObdSink {
        @Override
        public void send(byte[] bytes) {
            String text = new String(bytes, StandardCharsets.ISO_8859_1);
            longestPauseS = Math.max(longestPauseS, nowS - lastSentS);
            lastSentS = nowS;
            pieces.add(new Piece(true, text, toldS));
            log.add("sent " + text.strip());
            answer(text.strip());
        }

        @Override
        public void reading(ObdReading r) {
            readings.add(r);
            log.add("reading " + r.quantity() + " " + r.value());
        }

        @Override
        public void vin(String vin) {
            log.add("vin " + vin);
        }

        @Override
        public void state(ObdState state) {
            log.add("state " + state);
        }

        @Override
        public void controlUnit(String chosen, int answering) {
            log.add("controlUnit " + chosen + " of " + answering);
        }
    }
}
