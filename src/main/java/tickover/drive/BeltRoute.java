package tickover.drive;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * How a belt lies round its pulleys at the pitch line, seen from the front of the engine: contacts
 * in order of the path, a straight span from each to the next and from the last to the first.
 *
 * @param contacts one for each stop of the path
 * @param lengthMm arcs and spans together, mm
 */
public record BeltRoute(List<Contact> contacts, double lengthMm) {
    public BeltRoute {
        contacts = List.copyOf(contacts);
        if (!(lengthMm > 0 && Double.isFinite(lengthMm))) {
            throw new IllegalArgumentException("lengthMm=" + lengthMm + ", need > 0 mm");
        }
    }

    /**
     * The arc on which a belt touches a pulley, followed in the order of the path.
     *
     * @param pulley the pulley's name
     * @param centre the pulley's centre
     * @param radiusMm half the diameter at the pitch line, mm
     * @param entry where the span from the stop before ends
     * @param exit where the span to the next stop begins
     * @param wrapDeg angle of the arc, degrees, 0 to below 360
     * @param anticlockwise whether the arc runs anticlockwise from entry to exit
     */
    public record Contact(
            String pulley,
            Position centre,
            double radiusMm,
            Position entry,
            Position exit,
            double wrapDeg,
            boolean anticlockwise) {
        public Contact {
            Objects.requireNonNull(pulley, "pulley");
            Objects.requireNonNull(centre, "centre");
            Objects.requireNonNull(entry, "entry");
            Objects.requireNonNull(exit, "exit");
            if (!(radiusMm > 0 && Double.isFinite(radiusMm))) {
                throw new IllegalArgumentException("radiusMm=" + radiusMm + ", need > 0 mm");
            }
            if (!(wrapDeg >= 0 && wrapDeg < 360)) {
                throw new IllegalArgumentException(
                        "wrapDeg=" + wrapDeg + ", need 0 to below 360 degrees");
            }
        }
    }

    /**
     * A straight run of belt.
     *
     * @param fromPulley name of the pulley it leaves
     * @param toPulley name of the pulley it reaches
     * @param from where it leaves
     * @param to where it arrives
     */
    public record Span(String fromPulley, String toPulley, Position from, Position to) {
        /**
         * Returns its length.
         *
         * @return mm
         */
        public double lengthMm() {
            return Math.hypot(to.xMm() - from.xMm(), to.yMm() - from.yMm());
        }
    }

    /**
     * Returns the straight runs.
     *
     * @return as many as contacts; the first leaves the first contact
     */
    public List<Span> spans() {
        return spans(contacts);
    }

    static List<Span> spans(List<Contact> contacts) {
        int n = contacts.size();
        return IntStream.range(0, n)
                .mapToObj(
                        i -> {
                            Contact from = contacts.get(i);
                            Contact to = contacts.get((i + 1) % n);
                            return new Span(from.pulley(), to.pulley(), from.exit(), to.entry());
                        })
                .toList();
    }

    /**
     * Finds the contact with a pulley.
     *
     * @param pulley its name
     * @return the contact, or empty if the belt does not touch it
     */
    public Optional<Contact> contact(String pulley) {
        return contacts.stream().filter(c -> c.pulley().equals(pulley)).findFirst();
    }
}
