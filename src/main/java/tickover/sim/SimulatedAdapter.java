package tickover.sim;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;

/**
 * A text-command adapter on a simulated diagnostic socket: takes command lines, answers with a
 * prompt, late. Knows the commands that set it up, service 01 with a few parameters, and the VIN.
 * Anything else is answered by a question mark. One thread; time is handed in, s.
 */
public final class SimulatedAdapter implements SimulatedDevice {
    /**
     * What it is like.
     *
     * @param replyS from the end of a request to the first byte of its answer, s
     * @param jitterS largest further delay, uniform, s
     * @param averagingS span over which the control unit averages speed, s
     * @param searchingS how long the first request to the car takes, s
     * @param vin 17 characters
     */
    public record Spec(
            double replyS, double jitterS, double averagingS, double searchingS, String vin) {
        /** An ordinary one. */
        public static final Spec ORDINARY = new Spec(0.06, 0.03, 0.1, 1.2, "TKV00000000000007");

        public Spec {
            if (!(replyS >= 0 && jitterS >= 0 && averagingS > 0 && searchingS >= 0)) {
                throw new IllegalArgumentException(
                        "replyS, jitterS, searchingS need >= 0 s, averagingS needs > 0 s");
            }
            if (vin.length() != 17) {
                throw new IllegalArgumentException("vin=" + vin + ", need 17 characters");
            }
        }
    }

    @SuppressWarnings("ArrayRecordComponent") // handed over once and never compared
    private record Reply(double atS, byte[] bytes) {}

    private final Spec spec;
    private final LineScene scene;
    private final Draw draw;
    private final StringBuilder command = new StringBuilder();
    private final Deque<Reply> replies = new ArrayDeque<>();
    private boolean echo = true;
    private boolean spaces = true;
    private boolean lineFeeds = true;
    private boolean headers;
    private boolean connected;
    private double freeS;

    /**
     * Plugs it in.
     *
     * @param spec what it is like
     * @param scene the engine whose speed it reports
     * @param seed of its delays
     */
    public SimulatedAdapter(Spec spec, LineScene scene, long seed) {
        this.spec = spec;
        this.scene = scene;
        this.draw = new Draw(seed);
    }

    @Override
    public void hear(byte[] bytes, double atS) {
        for (byte b : bytes) {
            char c = (char) (b & 0xFF);
            if (c == '\r') {
                run(command.toString(), atS);
                command.setLength(0);
            } else if (c > ' ') {
                command.append(Character.toUpperCase(c));
            }
        }
    }

    private void run(String line, double atS) {
        double delayS = 0.005;
        String answer;
        if (line.startsWith("AT")) {
            answer = setUp(line.substring(2));
            delayS = line.equals("ATZ") ? 0.5 : delayS;
        } else {
            answer = ask(line);
            delayS = spec.replyS() + draw.between(0, Math.max(spec.jitterS(), 1e-9));
            if (!connected && !answer.equals("?")) {
                connected = true;
                delayS += spec.searchingS();
                answer = "SEARCHING...\r" + answer;
            }
        }
        double fromS = Math.max(atS, freeS);
        freeS = fromS + delayS;
        boolean speed = line.startsWith("010C");
        String text = speed ? speedAnswer(freeS) : answer;
        if (speed && answer.startsWith("SEARCHING")) {
            text = "SEARCHING...\r" + text;
        }
        String end = lineFeeds ? "\r\n" : "\r";
        String echoed = echo || line.equals("ATE0") ? line + "\r" : "";
        byte[] bytes =
                (echoed + text.replace("\r", end) + end + end + ">")
                        .getBytes(StandardCharsets.US_ASCII);
        replies.add(new Reply(freeS, bytes));
    }

    private String setUp(String words) {
        switch (words) {
            case "Z" -> {
                echo = true;
                spaces = true;
                lineFeeds = true;
                headers = false;
                connected = false;
                return "\rSIMULATED ADAPTER 1.0";
            }
            case "E0" -> echo = false;
            case "E1" -> echo = true;
            case "S0" -> spaces = false;
            case "S1" -> spaces = true;
            case "L0" -> lineFeeds = false;
            case "L1" -> lineFeeds = true;
            case "H0" -> headers = false;
            case "H1" -> headers = true;
            case "I" -> {
                return "SIMULATED ADAPTER 1.0";
            }
            case "RV" -> {
                return "14.1V";
            }
            case "DP" -> {
                return "AUTO, ISO 15765-4 (CAN 11/500)";
            }
            case "DPN" -> {
                return "A6";
            }
            default -> {
                boolean known =
                        words.matches("AT[0-2]|ST[0-9A-F]{1,2}|SP[0-9A]+|TP[0-9A]+|M0|D|PC|CAF1");
                return known ? "OK" : "?";
            }
        }
        return "OK";
    }

    private String ask(String line) {
        // A digit more than the parameter says how many answers to wait for.
        String request = line.length() % 2 == 1 ? line.substring(0, line.length() - 1) : line;
        return switch (request) {
            case "0100" -> shown("4100", 0x98, 0x18, 0x80, 0x01);
            case "0120" -> shown("4120", 0x00, 0x00, 0x00, 0x01);
            case "0140" -> shown("4140", 0x40, 0x00, 0x00, 0x00);
            case "0105" -> shown("4105", 40 + 85);
            case "010C" -> "";
            case "010D" -> shown("410D", 0);
            case "0142" -> shown("4142", 14100 >> 8, 14100 & 0xFF);
            case "0902" -> vin();
            default -> line.matches("[0-9A-F]{2,}") ? "NO DATA" : "?";
        };
    }

    /** Averaged up to the moment at which the answer leaves the control unit, in quarters. */
    private String speedAnswer(double answerS) {
        double unitS = answerS - spec.replyS() / 2;
        int steps = 8;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double timeS = unitS - spec.averagingS() * (i + 0.5) / steps;
            sum += scene.speedRpm(Math.max(0, timeS));
        }
        int quarters = (int) Math.rint(4 * sum / steps);
        return shown("410C", quarters >> 8, quarters & 0xFF);
    }

    private String shown(String head, int... bytes) {
        StringBuilder hex = new StringBuilder(head);
        for (int b : bytes) {
            hex.append(String.format(Locale.ROOT, "%02X", b));
        }
        if (headers) {
            hex.insert(0, "7E8" + String.format(Locale.ROOT, "%02X", hex.length() / 2));
        }
        return spaced(hex.toString());
    }

    private String spaced(String hex) {
        if (!spaces) {
            return hex;
        }
        int from = headers ? 3 : 0;
        String pairs = hex.substring(from).replaceAll("(..)", "$1 ").trim();
        return from == 0 ? pairs : hex.substring(0, from) + " " + pairs;
    }

    private String vin() {
        StringBuilder hex = new StringBuilder("490201");
        for (char c : spec.vin().toCharArray()) {
            hex.append(String.format(Locale.ROOT, "%02X", (int) c));
        }
        String all = hex.toString();
        return "014\r0:"
                + pairs(all.substring(0, 12))
                + "\r1:"
                + pairs(all.substring(12, 26))
                + "\r2:"
                + pairs(all.substring(26));
    }

    private String pairs(String hex) {
        return spaces ? " " + hex.replaceAll("(..)", "$1 ").trim() : hex;
    }

    @Override
    public byte[] sentBy(double nowS) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        while (!replies.isEmpty() && replies.peek().atS() <= nowS) {
            out.writeBytes(replies.remove().bytes());
        }
        return out.toByteArray();
    }

    @Override
    public void powerCycle(double atS) {
        replies.clear();
        command.setLength(0);
        setUp("Z");
    }
}
