package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tickover.unit.HostNanos;
import tickover.wire.ObdDialogue;
import tickover.wire.ObdReading;
import tickover.wire.ObdSink;
import tickover.wire.ObdState;

/**
 * Keeps the talk with a text-command adapter going. What it reads itself only steers the talk; the
 * recording's readings come from the bytes of both directions, live as in a replay.
 */
final class AdapterDriver implements SourceDriver {
    /** How often the talk wants to know the time, s. */
    private static final double TICK_S = 0.05;

    private final ObdDialogue dialogue =
            new ObdDialogue(
                    new ObdDialogue.Spec(
                            Set.of(ObdReading.Quantity.COOLANT_C, ObdReading.Quantity.SUPPLY_V),
                            true));
    private final List<byte[]> toSend = new ArrayList<>();
    private final ObdSink sink =
            new ObdSink() {
                @Override
                public void send(byte[] bytes) {
                    toSend.add(bytes);
                }

                @Override
                public void reading(ObdReading reading) {}

                @Override
                public void vin(String vin) {}

                @Override
                public void state(ObdState state) {}

                @Override
                public void controlUnit(String chosen, int answering) {}
            };

    @Override
    public void opened(HostNanos at) {
        dialogue.reset();
        toSend.clear();
    }

    @Override
    public void heard(byte[] bytes, HostNanos at) {
        dialogue.feed(bytes, 0, bytes.length, at, sink);
    }

    @Override
    public List<byte[]> due(HostNanos now) {
        dialogue.tick(now, sink);
        List<byte[]> messages = List.copyOf(toSend);
        toSend.clear();
        return messages;
    }

    /** Its requests may stay unanswered when the line is closed. */
    @Override
    public boolean awaits(HostNanos now) {
        return false;
    }

    @Override
    public double untilDueS(HostNanos now) {
        return TICK_S;
    }

    @Override
    public List<byte[]> farewell() {
        return List.of();
    }

    @Override
    public String problem() {
        return switch (dialogue.state()) {
            case READING, STARTING, IDLE -> "";
            case SILENT, SEARCHING, NO_CAR, NO_SPEED, ENGINE_OFF, GARBLED ->
                    sentence(dialogue.state());
        };
    }

    /** Without its full stop: whoever shows it ends the sentence. */
    private static String sentence(ObdState state) {
        String sentence = state.sentence();
        return sentence.substring(0, sentence.length() - 1);
    }
}
