package tickover.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.drive.Condition;

/**
 * What to watch for, at the step that needs it. A caution is never the only thing between a user
 * and a hazard: the maker's service information, local rules and licensed practice come first.
 */
public enum Caution {
    /** Before the engine is started with a probe near it. */
    FIRST_START(
            "before starting the engine",
            "Nothing loose: rings, watch, sleeves, lanyard and long hair off or tied.",
            "Route and tie the probe's and the tach's leads before the start; a fan takes"
                    + " whatever hangs.",
            "Touch only metal that stands still, such as a bolt head or a housing; never a"
                    + " pulley, a belt or a fan.",
            "Electric fans start by themselves, even with the key off. Hybrids and"
                    + " stop-start vehicles can start the engine: follow the maker's"
                    + " lock-out and keep off orange cables.",
            "Brake on, wheels chocked, in park or neutral. Never under a vehicle that only"
                    + " a jack holds.",
            "Lead the exhaust outside; wear eye and ear protection; parts are hot.",
            "Wait for standstill before any work at the belt or before sticking on"
                    + " reflective tape."),
    /** Running without the belt. */
    BELT_OFF(
            "before a run without the belt",
            "Only on a cold engine, for 30 to 60 seconds, and never past 2 minutes:"
                    + " without the belt there is no coolant flow, no charging and no"
                    + " steering assistance, and fault codes may be set.",
            "The temperature gauge misleads when the coolant does not flow.",
            "Engine off and at standstill before the belt comes off and before it goes"
                    + " back on.",
            "A quiet engine then proves only that something on the belt was it, not"
                    + " which: the bearings were unloaded too."),
    /** Running in a drive gear against the brake. */
    IN_GEAR(
            "before a run in gear",
            "Only with a second person on the brake, the parking brake on, wheels chocked"
                    + " and nobody in front of or behind the vehicle."),
    /** Unplugging an injector. */
    INJECTOR(
            "before unplugging an injector",
            "Keep it short: raw fuel reaches the catalyst.",
            "Never open or probe the high-pressure lines of a diesel rail."),
    /** Holding the steering at full lock. */
    STEERING(
            "before holding full lock",
            "Hold full lock only for a few seconds at a time; the pump runs against its"
                    + " relief valve."),
    /** Turning a removed part by a drill or on a lathe. */
    BENCH(
            "before anything turns on the bench",
            "Clamp the part that stands still to something heavy; a bearing held in the hand can"
                    + " seize and wrench the wrist.",
            "Fasten the probe and tie its lead off; touch only the ring that stands still.",
            "Sleeves, rings, watch, lanyard and long hair out of the way, eyes protected, nobody"
                    + " else within reach.",
            "Hand drill: stay under 2000 rpm, and lock the trigger only if you can reach the"
                    + " plug.",
            "Lathe: chuck key out, guard down, start at the lowest speed.",
            "Never blow a bearing round with compressed air; let it stop by itself.",
            "Reflective tape for a tach goes on at standstill, plug pulled.");

    private static final String COMES_FIRST =
            "The maker's service information, local rules and licensed practice come first.";

    private final String when;
    private final String text;

    Caution(String when, String... sentences) {
        this.when = when;
        this.text = String.join("\n", sentences);
    }

    /**
     * Returns the step that needs it.
     *
     * @return a phrase such as "before starting the engine"
     */
    public String when() {
        return when;
    }

    /**
     * Returns what to watch for.
     *
     * @return whole sentences
     */
    public List<String> sentences() {
        return List.of(text.split("\n", -1));
    }

    /**
     * Returns the sentence that ends every list of cautions.
     *
     * @return whose word comes first
     */
    public static String comesFirst() {
        return COMES_FIRST;
    }

    /**
     * Finds the cautions that a test needs.
     *
     * @param testKind as in {@link tickover.diagnose.NextTest#kind}
     * @return the start of the engine first, then what is particular to the test
     */
    public static List<Caution> forTest(String testKind) {
        String kind = testKind.toLowerCase(Locale.ROOT);
        List<Caution> needed = new ArrayList<>();
        needed.add(FIRST_START);
        if (kind.contains("belt")) {
            needed.add(BELT_OFF);
        }
        if (kind.contains("gear")) {
            needed.add(IN_GEAR);
        }
        if (kind.contains("injector")) {
            needed.add(INJECTOR);
        }
        if (kind.contains("steering")) {
            needed.add(STEERING);
        }
        return needed;
    }

    /**
     * Finds the cautions that a recording needs.
     *
     * @param condition what the drive has to carry
     * @return the start of the engine first, then what is particular to the condition
     */
    public static List<Caution> beforeRecording(Condition condition) {
        List<Caution> needed = new ArrayList<>();
        needed.add(FIRST_START);
        if (!condition.beltOn()) {
            needed.add(BELT_OFF);
        }
        if (condition.driveGear()) {
            needed.add(IN_GEAR);
        }
        if (condition.injectorOff().isPresent()) {
            needed.add(INJECTOR);
        }
        if (condition.steering()) {
            needed.add(STEERING);
        }
        return needed;
    }
}
