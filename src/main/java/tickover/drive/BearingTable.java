package tickover.drive;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Typical internals of common deep-groove ball bearings by designation.
 *
 * <p>These are <em>typical</em> values, not a standard: ISO 15 fixes only the outside dimensions,
 * and every maker chooses balls and pitch diameter. All rows but 6205 are from memory of one
 * maker's habit and unverified; 6205 is the geometry of a public test rig, from memory, and another
 * public source gives it a pitch diameter of 38.5 mm. Where makers differ in the number of balls,
 * both are listed. Internals that the user gives always count before this table.
 */
public final class BearingTable {
    private static final Map<String, List<BearingGeometry>> TYPICAL = typicalRows();

    /** The basic number at the start; what follows it names seals, clearance and grease. */
    private static final Pattern BASIC_NUMBER = Pattern.compile("\\s*(\\d{3,4})(?:\\D.*)?");

    private BearingTable() {}

    private static Map<String, List<BearingGeometry>> typicalRows() {
        Map<String, List<BearingGeometry>> rows = new LinkedHashMap<>();
        rows.put("608", List.of(deepGroove(7, 3.97, 15)));
        rows.put("6200", List.of(deepGroove(8, 4.76, 20), deepGroove(7, 4.76, 20)));
        rows.put("6201", List.of(deepGroove(7, 5.95, 22)));
        rows.put("6202", List.of(deepGroove(8, 5.95, 25)));
        rows.put("6203", List.of(deepGroove(8, 6.75, 28.5)));
        rows.put("6204", List.of(deepGroove(8, 7.94, 33.5)));
        rows.put("6205", List.of(deepGroove(9, 7.94, 39.04)));
        rows.put("6301", List.of(deepGroove(6, 7.94, 24.5), deepGroove(7, 7.94, 24.5)));
        rows.put("6302", List.of(deepGroove(7, 7.94, 28.5)));
        rows.put("6303", List.of(deepGroove(7, 8.73, 32)));
        rows.put("6304", List.of(deepGroove(7, 9.53, 36)));
        return rows;
    }

    private static BearingGeometry deepGroove(int balls, double ballMm, double pitchMm) {
        return new BearingGeometry(balls, ballMm, pitchMm, 0);
    }

    /**
     * Looks a designation up. Suffixes for seals, clearance and grease ({@code 6203-2RS}, {@code
     * 6203DDU}, {@code 6203/C3}) do not matter.
     *
     * @param designation as printed on the shield
     * @return typical internals, one entry for each number of balls in use; empty if not listed
     */
    public static List<BearingGeometry> typical(String designation) {
        Matcher m = BASIC_NUMBER.matcher(Objects.requireNonNull(designation, "designation"));
        return m.matches() ? TYPICAL.getOrDefault(m.group(1), List.of()) : List.of();
    }

    /**
     * Returns what can be looked up.
     *
     * @return basic designations, without suffix, in ascending order
     */
    public static List<String> designations() {
        return List.copyOf(TYPICAL.keySet());
    }
}
