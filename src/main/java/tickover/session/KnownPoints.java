package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tickover.drive.Pulley;
import tickover.drive.Vehicle;

/**
 * The points of a vehicle that captures can be judged by. Any other word is allowed, as a note to
 * oneself; but a slip of the keyboard would make a pulley's capture one of nowhere.
 */
public final class KnownPoints {
    private static final List<String> OF_EVERY_ENGINE = List.of("valve-cover", "block", "bracket");
    private static final String INJECTOR = "injector-";

    private KnownPoints() {}

    /**
     * Lists the points of a vehicle.
     *
     * @param vehicle the vehicle
     * @return pulleys first, then what every engine has
     */
    public static List<String> of(Vehicle vehicle) {
        List<String> all = new ArrayList<>(vehicle.pulleys().stream().map(Pulley::name).toList());
        all.addAll(OF_EVERY_ENGINE);
        for (int i = 1; i <= vehicle.engine().cylinders(); i++) {
            all.add(INJECTOR + i);
        }
        return all;
    }

    /**
     * Says what a person should know of a point before anything is captured there.
     *
     * @param vehicle the vehicle
     * @param point where the probe is to be
     * @return one sentence; empty if the point is one of the vehicle's
     */
    public static Optional<String> remark(Vehicle vehicle, String point) {
        List<String> known = of(vehicle);
        if (known.contains(point)) {
            return Optional.empty();
        }
        String meant =
                known.stream()
                        .filter(k -> near(k, point))
                        .findFirst()
                        .map(k -> "; " + k + " was meant?")
                        .orElse(".");
        return Optional.of(
                "'"
                        + point
                        + "' is no point of "
                        + vehicle.unit()
                        + " and counts as a note, so that no part is judged by it"
                        + meant
                        + " Its points: "
                        + String.join(", ", known));
    }

    /** One slip away, or the same but for case and what stands between words. */
    private static boolean near(String known, String typed) {
        String a = plain(known);
        String b = plain(typed);
        return a.equals(b) || (a.length() > 3 && slips(a, b) <= (a.length() > 6 ? 2 : 1));
    }

    private static String plain(String word) {
        return word.toLowerCase(Locale.ROOT).replaceAll("[-_ ]", "");
    }

    /** Letters to insert, drop or replace to get from one word to the other. */
    private static int slips(String a, String b) {
        int[] above = new int[b.length() + 1];
        for (int j = 0; j < above.length; j++) {
            above[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int[] row = new int[b.length() + 1];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int other = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                row[j] = Math.min(Math.min(row[j - 1], above[j]) + 1, above[j - 1] + other);
            }
            above = row;
        }
        return above[b.length()];
    }
}
