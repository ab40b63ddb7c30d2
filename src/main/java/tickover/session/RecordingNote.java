package tickover.session;

import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Optional;

/**
 * A remark in a recording: a capture begins, a capture ends, which vehicle is being recorded, or
 * where the tach's mark is.
 *
 * @param kind which of them
 * @param number of the capture, counted from 1; 0 otherwise
 * @param body the capture's description when it begins, the vehicle, the tach
 */
record RecordingNote(Kind kind, int number, JsonObject body) {
    /** The members. */
    enum Kind {
        BEGIN("capture-begins"),
        END("capture-ends"),
        VEHICLE("vehicle"),
        TACH("tach"),
        /** A note that this version cannot read; it says nothing. */
        UNREADABLE("");

        private final String word;

        Kind(String word) {
            this.word = word;
        }
    }

    RecordingNote {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(body, "body");
    }

    static RecordingNote begins(int number, PlannedCapture capture) {
        return new RecordingNote(Kind.BEGIN, number, capture.json());
    }

    static RecordingNote ends(int number) {
        return new RecordingNote(Kind.END, number, new JsonObject());
    }

    /** The text of a {@code vehicle.toml}, whole, so that a recording needs nothing beside it. */
    static RecordingNote vehicle(String toml) {
        JsonObject body = new JsonObject();
        body.addProperty("toml", toml);
        return new RecordingNote(Kind.VEHICLE, 0, body);
    }

    static RecordingNote tach(String pulley, int pulsesPerTurn) {
        JsonObject body = new JsonObject();
        body.addProperty("pulley", pulley);
        body.addProperty("pulsesPerTurn", pulsesPerTurn);
        return new RecordingNote(Kind.TACH, 0, body);
    }

    String tachPulley() {
        return body.get("pulley").getAsString();
    }

    int pulsesPerTurn() {
        return body.get("pulsesPerTurn").getAsInt();
    }

    /** What is captured; a description that cannot be read leaves it without a name. */
    PlannedCapture capture() {
        try {
            return PlannedCapture.parse(body);
        } catch (JsonParseException e) {
            return PlannedCapture.UNNAMED;
        }
    }

    String vehicleToml() {
        return body.get("toml").getAsString();
    }

    byte[] json() {
        JsonObject o = new JsonObject();
        o.addProperty("note", kind.word);
        o.addProperty("number", number);
        o.add("body", body);
        return o.toString().getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads a note; empty if it is of a kind that a newer version may know. Whatever it holds, the
     * note's own answers can be asked for without fear.
     */
    static Optional<RecordingNote> parse(byte[] json) {
        try {
            JsonObject o =
                    JsonParser.parseString(new String(json, StandardCharsets.UTF_8))
                            .getAsJsonObject();
            String word = o.get("note").getAsString();
            for (Kind kind : Kind.values()) {
                if (kind != Kind.UNREADABLE && kind.word.equals(word)) {
                    RecordingNote note =
                            new RecordingNote(
                                    kind, o.get("number").getAsInt(), o.getAsJsonObject("body"));
                    note.requireReadable();
                    return Optional.of(note);
                }
            }
            return Optional.empty();
        } catch (IllegalStateException
                | IllegalArgumentException
                | UnsupportedOperationException
                | JsonParseException
                | ClassCastException
                | NullPointerException e) {
            return Optional.of(new RecordingNote(Kind.UNREADABLE, 0, new JsonObject()));
        }
    }

    private void requireReadable() {
        switch (kind) {
            case VEHICLE -> Objects.requireNonNull(vehicleToml());
            case TACH -> {
                if (tachPulley().isBlank() || !(pulsesPerTurn() >= 1)) {
                    throw new IllegalArgumentException(
                            "pulsesPerTurn=" + pulsesPerTurn() + ", need >= 1 on a pulley");
                }
            }
            case BEGIN, END, UNREADABLE -> {}
        }
        if (!(number >= 0)) {
            throw new IllegalArgumentException("number=" + number + ", need >= 0");
        }
    }
}
