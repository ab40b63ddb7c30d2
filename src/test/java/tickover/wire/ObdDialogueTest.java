package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.unit.HostNanos;
import tickover.wire.ObdReading.Quantity;

class ObdDialogueTest {
    private static final HostNanos ZERO = new HostNanos(0);
    private static final ObdDialogue.Spec ALL =
            new ObdDialogue.Spec(
                    Set.of(Quantity.COOLANT_C, Quantity.ROAD_SPEED_KMH, Quantity.SUPPLY_V), true);
    private static final ObdDialogue.Spec SPEED = new ObdDialogue.Spec(Set.of(), false);

    private static ObdScript run(String name) throws IOException {
        ObdDialogue.Spec spec = name.matches("obd-(good|slow|rude|late).txt") ? ALL : SPEED;
        ObdScript script = ObdScript.of(name);
        script.run(new ObdDialogue(spec));
        int at = 0;
        for (String expected : script.expected) {
            int found = script.log.subList(at, script.log.size()).indexOf(expected);
            assertTrue(found >= 0, () -> name + ": no \"" + expected + "\" in " + script.log);
            at += found + 1;
        }
        script.forbidden.forEach(f -> assertTrue(!script.log.contains(f), f));
        return script;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "good",
                "slow",
                "rude",
                "two-units",
                "unit-lost",
                "unplugged",
                "deaf",
                "no-speed",
                "declines",
                "late"
            })
    void talksWithAdaptersOfEveryManner(String manner) throws IOException {
        ObdScript script = run("obd-" + manner + ".txt");
        long speeds =
                script.readings.stream()
                        .filter(r -> r.quantity() == Quantity.ENGINE_SPEED_RPM)
                        .count();
        assertTrue(speeds >= script.leastSpeeds, manner + ": " + speeds + " speeds");
        assertTrue(script.longestPauseS <= ObdDialogue.MOST_PAUSE_S);
    }

    @Test
    void readingsCarryTheTimesOfRequestAndAnswer() throws IOException {
        ObdScript script = run("obd-good.txt");
        double step = 0.0101; // the script's clock steps by 10 ms
        for (ObdReading r : script.readings.subList(1, script.readings.size())) {
            assertEquals(0.05, r.answered().secondsAfter(r.asked()), step);
        }
    }

    @Test
    void recordingOfBothDirectionsGivesTheSameReadings() throws IOException {
        for (String manner : List.of("good", "slow", "rude", "two-units")) {
            ObdScript script = run("obd-" + manner + ".txt");
            ObdReader reader = new ObdReader();
            List<ObdReading> again = new ArrayList<>();
            ObdSink sink = new Readings(again);
            for (ObdScript.Piece piece : script.pieces) {
                if (piece.out()) {
                    reader.sent(piece.bytes(), piece.at());
                } else {
                    reader.feed(piece.bytes(), 0, piece.bytes().length, piece.at(), sink);
                }
            }
            assertTrue(script.readings.size() > 10);
            assertEquals(script.readings, again, manner);
        }
    }

    /** Published replies: 1726 and 716 rpm by (256 A + B) / 4. */
    @Test
    void readsPublishedReplies() {
        assertEquals(1726.0, speed("41 0C 1A F8"));
        assertEquals(716.0, speed("41 0C 0B 30"));
        assertEquals(1726.0, speed("7E8 04 41 0C 1A F8"));
        assertEquals(1726.0, speed("7E8 04 41 0C 1A F8 AA AA AA"));
        assertEquals(1726.0, speed("18 DA F1 10 04 41 0C 1A F8"));
        assertEquals(1726.0, speed("48 6B 10 41 0C 1A F8 21"));
        assertEquals(1726.0, speed("SEARCHING...41 0C 1A F8"));
        assertEquals(16383.75, speed("41 0C FF FF"));
        assertEquals(-1, speed("41 0C 1A"));
        assertEquals(-1, speed("41 0C 1A F8 00"));
        assertEquals(-1, speed("41 0D 1A F8"));
        assertEquals(-1, speed("7E8 05 41 0C 1A F8"));
        assertEquals(-1, speed("41 0C 1A F8 <DATA ERROR"));
        List<ObdReply.Answer> two =
                ObdReader.supported(reply("0100", "4100BF9FF991", "410080000000"));
        assertEquals(0xBF9FF991L, two.get(0).data());
        assertEquals(0x80000000L, two.get(1).data());
    }

    /** "7F", the service, and a reason: the car has understood and has nothing to give. */
    @Test
    void aControlUnitThatDeclinesIsNoGarbledAnswer() {
        for (String said :
                List.of(
                        "7F0112",
                        "7E8037F0112",
                        "7E8037F0112AAAAAAAA",
                        "18DAF110037F0121",
                        "486B107F010C00001245")) {
            assertEquals(ObdReply.Trouble.DECLINED, reply("010C", said).trouble(), said);
        }
        assertEquals(ObdReply.Trouble.NONE, reply("010C", "410C7F01").trouble());
        assertEquals(ObdReply.Trouble.NONE, reply("0100", "4100007F01AB").trouble());
        ObdReply both = reply("010C", "7E9037F0112", "7E804410C1AF8");
        assertEquals(1, both.answers(0x0C, 2).size(), "another control unit does answer");
    }

    /** Bytes that waited for their reader do not make the next command look old. */
    @Test
    void aCommandIsNotGivenUpForTheTimeItsCauseHasWaited() {
        List<String> sent = new ArrayList<>();
        ObdSink sink =
                new Readings(new ArrayList<>()) {
                    @Override
                    public void send(byte[] bytes) {
                        sent.add(new String(bytes, StandardCharsets.US_ASCII));
                    }
                };
        ObdDialogue dialogue = new ObdDialogue(SPEED);
        dialogue.tick(ZERO, sink);
        byte[] said = "ADAPTER\r\r>".getBytes(StandardCharsets.US_ASCII);
        dialogue.feed(said, 0, said.length, ZERO.plusS(0.5), sink);
        dialogue.tick(ZERO.plusS(4), sink);
        dialogue.tick(ZERO.plusS(4.05), sink);
        assertEquals(List.of("ATZ\r", "ATE0\r"), sent);
    }

    /** Answers of another request are late ones; what they are taken for is the question. */
    @Test
    void anAnswerToAnotherRequestIsTold() {
        assertTrue(reply("010C1", "41057D").isOfAnother("010C1"));
        assertTrue(reply("0105", "7E804410C1AF8").isOfAnother("0105"));
        assertTrue(reply("010C", "414040000000").isOfAnother("010C"));
        assertTrue(!reply("010C1", "410C1AF8").isOfAnother("010C1"));
        assertTrue(!reply("010C1", "7E903410D00", "7E804410C1AF8").isOfAnother("010C1"));
        assertTrue(!reply("010C1", "NODATA").isOfAnother("010C1"));
        assertTrue(!reply("ATE0", "41057D").isOfAnother("ATE0"));
        assertTrue(!reply("", "41057D").isOfAnother(""));
    }

    private static double speed(String line) {
        return reply("010C", line.replace(" ", "")).answers(0x0C, 2).stream()
                .mapToDouble(a -> Quantity.ENGINE_SPEED_RPM.value(a.data()))
                .findFirst()
                .orElse(-1);
    }

    private static ObdReply reply(String command, String... lines) {
        List<ObdReply.Line> all = new ArrayList<>();
        for (String line : lines) {
            all.add(new ObdReply.Line(line, ZERO));
        }
        return new ObdReply(command, ZERO, all);
    }

    @Test
    void spellsTheVehicleNumberFromPieces() {
        String vin = "WDB9063231A123456";
        assertEquals(
                Optional.of(vin),
                reply("0902", "014", "0:490201574442", "1:39303633323331", "2:41313233343536")
                        .vin());
        assertEquals(
                Optional.of(vin),
                reply(
                                "0902",
                                "49020100000057",
                                "49020244423930",
                                "49020336333233",
                                "49020431413132",
                                "49020533343536")
                        .vin());
        assertEquals(
                Optional.of(vin),
                reply("0902", "7E81014490201574442", "7E82139303633323331", "7E82241313233343536")
                        .vin());
        assertEquals(
                Optional.of(vin),
                reply(
                                "0902",
                                "18DAF1101014490201574442",
                                "18DAF1102139303633323331",
                                "18DAF1102241313233343536")
                        .vin());
        assertEquals(
                Optional.of(vin),
                reply(
                                "0902",
                                "486B104902010000005723",
                                "486B1049020244423930AB",
                                "486B10490203363332330E",
                                "486B1049020431413132F0",
                                "486B104902053334353611")
                        .vin());
        assertEquals(Optional.empty(), reply("0902", "014", "0:490201574442").vin());
        assertEquals(Optional.empty(), reply("0902", "NODATA").vin());
    }

    @Test
    void everyStateIsASentence() {
        for (ObdState state : ObdState.values()) {
            assertTrue(state.sentence().matches("[A-Z][^.]*\\."), state.sentence());
        }
    }

    /** Random bytes, and random words of the trade, at random times: it never gives up or in. */
    @Test
    void asksAgainWhateverComes() {
        long seed = 51;
        SplittableRandom random = new SplittableRandom(seed);
        String[] words = {
            ">", "\r", "410C1AF8", "4100BE1FA813", "NO DATA", "SEARCHING...", "?", "STOPPED", "OK",
            "\r>", "7E8", "014\r0:4902", "BUS INIT: ", "ERROR", "CAN ERROR", "LV RESET", "<", "\0"
        };
        for (int round = 0; round < 40; round++) {
            ObdDialogue dialogue = new ObdDialogue(ALL);
            double[] lastS = {0};
            double[] nowS = {0};
            ObdSink sink =
                    new Readings(new ArrayList<>()) {
                        @Override
                        public void send(byte[] bytes) {
                            assertTrue(nowS[0] - lastS[0] <= ObdDialogue.MOST_PAUSE_S);
                            lastS[0] = nowS[0];
                        }
                    };
            long fed = 0;
            for (; nowS[0] < 300; nowS[0] += 0.05) {
                HostNanos now = ZERO.plusS(nowS[0]);
                if (random.nextInt(8) < round % 9) {
                    byte[] bytes = new byte[random.nextInt(40)];
                    random.nextBytes(bytes);
                    if (round % 4 != 0) {
                        String word = words[random.nextInt(words.length)];
                        bytes = word.getBytes(StandardCharsets.US_ASCII);
                    }
                    dialogue.feed(bytes, 0, bytes.length, now, sink);
                    fed += bytes.length;
                }
                dialogue.tick(now, sink);
                assertEquals(fed, dialogue.tally().in());
            }
            assertTrue(nowS[0] - lastS[0] <= ObdDialogue.MOST_PAUSE_S, "round " + round);
        }
    }

    private static class Readings implements ObdSink {
        private final List<ObdReading> readings;

        Readings(List<ObdReading> readings) {
            this.readings = readings;
        }

        @Override
        public void send(byte[] bytes) {}

        @Override
        public void reading(ObdReading reading) {
            readings.add(reading);
        }

        @Override
        public void vin(String vin) {}

        @Override
        public void state(ObdState state) {}

        @Override
        public void controlUnit(String chosen, int answering) {}
    }
}
