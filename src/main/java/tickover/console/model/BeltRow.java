package tickover.console.model;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import tickover.drive.Belt;

/**
 * One belt while it is entered.
 *
 * @param name what it is called
 * @param length at the pitch line, mm, as typed; empty if it is to be computed
 * @param path names of the pulleys in the order of contact, with commas
 */
public record BeltRow(String name, String length, String path) {
    public BeltRow {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(length, "length");
        Objects.requireNonNull(path, "path");
    }

    static BeltRow of(Belt belt) {
        return new BeltRow(
                belt.name(),
                belt.lengthMm().isPresent() ? Numbers.text(belt.lengthMm().getAsDouble()) : "",
                String.join(", ", belt.path()));
    }

    /**
     * Returns the stops.
     *
     * @return names as typed, without blanks around them
     */
    public List<String> stops() {
        return Arrays.stream(path.split("[,;>]"))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
    }

    BeltRow through(List<String> stops) {
        return new BeltRow(name, length, String.join(", ", stops));
    }

    /** The same after a pulley got another name. */
    BeltRow renamed(String from, String to) {
        return through(
                stops().stream().map(s -> s.equals(from) ? to : s).collect(Collectors.toList()));
    }

    /** The same without a pulley. */
    BeltRow without(String pulley) {
        return through(stops().stream().filter(s -> !s.equals(pulley)).toList());
    }
}
