package tickover.diagnose;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * What the driver's words say of what is wrong.
 *
 * <p>A bearing whines or grinds, an injector ticks, a belt thumps; somebody who comes for a service
 * has heard nothing. In: the complaint as it was written down, in English. Out: odds. Words of
 * another kind, or none, say nothing. Which word goes with which fault is common practice; how far
 * to believe a driver is judgement: {@value #RIGHT} for the right kind of word, the rest shared by
 * the other kinds, so that no complaint moves odds by more than a factor of 4.5.
 */
public final class Complaint {
    /** Chance that a driver's word is of the kind that the fault sounds like. */
    private static final double RIGHT = 0.6;

    /** How many words before a noise may deny it: "no longer any whine". */
    private static final int DENIAL_REACH = 3;

    private static final Set<String> DENIALS = Set.of("no", "not", "never", "without", "neither");

    /** Sorts of noise that a driver tells apart. */
    private enum Sound {
        TONE,
        KNOCK,
        BEAT,
        NOTHING
    }

    /** Words of a noise without their endings; "rumble" is said of bearings and of belts. */
    private static final Map<String, Set<Sound>> STEMS = stems();

    /** How the stems go on. "Ticket" is none of them. */
    private static final List<String> ENDINGS =
            List.of("", "s", "e", "es", "ed", "y", "ing", "ion", "ions");

    private static Map<String, Set<Sound>> stems() {
        Map<String, Set<Sound>> out = new HashMap<>();
        for (String stem :
                List.of(
                        "whin", "whirr", "whir", "howl", "growl", "grind", "groan", "roar", "dron",
                        "hum", "humm")) {
            out.put(stem, Set.of(Sound.TONE));
        }
        for (String stem :
                List.of(
                        "tick", "tap", "tapp", "tappet", "click", "clack", "clatter", "rattl",
                        "knock")) {
            out.put(stem, Set.of(Sound.KNOCK));
        }
        for (String stem :
                List.of(
                        "thump", "thud", "thudd", "flap", "flapp", "slap", "slapp", "throb",
                        "throbb", "wobbl", "shak", "shudder", "vibrat")) {
            out.put(stem, Set.of(Sound.BEAT));
        }
        out.put("rumbl", Set.of(Sound.TONE, Sound.BEAT));
        return Map.copyOf(out);
    }

    /** A noise of no kind: it is heard, and that is all. */
    private static final List<String> ANY_NOISE = List.of("nois", "loud", "sound");

    /** Who comes for these, and says nothing of a noise, has heard none. */
    private static final List<String> NO_NOISE =
            List.of("servic", "routine", "inspect", "complaint", "nothing");

    private final Set<Sound> sounds;
    private final String word;

    private Complaint(Set<Sound> sounds, String word) {
        this.sounds = sounds;
        this.word = word;
    }

    /**
     * Reads a complaint.
     *
     * @param text as it was written down; may be empty
     * @return what it says
     */
    public static Complaint of(String text) {
        Objects.requireNonNull(text, "text");
        EnumSet<Sound> sounds = EnumSet.noneOf(Sound.class);
        List<String> said = new ArrayList<>();
        boolean noise = false;
        boolean quiet = false;
        List<String> words = List.of(text.toLowerCase(Locale.ROOT).split("[^\\p{L}]+"));
        for (int i = 0; i < words.size(); i++) {
            String next = words.get(i);
            boolean denied =
                    words.subList(Math.max(0, i - DENIAL_REACH), i).stream()
                            .anyMatch(DENIALS::contains);
            quiet |= NO_NOISE.stream().anyMatch(next::startsWith);
            Optional<Set<Sound>> sound = soundOf(next);
            if (denied) {
                quiet |= sound.isPresent();
                continue;
            }
            noise |= ANY_NOISE.stream().anyMatch(next::startsWith);
            sound.ifPresent(
                    s -> {
                        sounds.addAll(s);
                        said.add(next);
                    });
        }
        if (sounds.isEmpty() && quiet && !noise) {
            sounds.add(Sound.NOTHING);
        }
        return new Complaint(sounds, String.join(", ", said));
    }

    private static Optional<Set<Sound>> soundOf(String word) {
        return ENDINGS.stream()
                .filter(word::endsWith)
                .map(e -> word.substring(0, word.length() - e.length()))
                .filter(STEMS::containsKey)
                .findFirst()
                .map(STEMS::get);
    }

    /** Whether it names a kind of noise, or says that there is none. */
    boolean speaks() {
        return !sounds.isEmpty();
    }

    /** Logarithm of the chance of these words if this is what is wrong, nats; 0 if it says none. */
    double nats(FaultGroup group) {
        return nats(soundsOf(group));
    }

    /** The same for an engine without fault. */
    double healthyNats() {
        return nats(Set.of(Sound.NOTHING));
    }

    private double nats(Set<Sound> usual) {
        if (sounds.isEmpty()) {
            return 0;
        }
        double sum = 0;
        for (Sound s : sounds) {
            sum +=
                    usual.contains(s)
                            ? RIGHT / usual.size()
                            : (1 - RIGHT) / (Sound.values().length - usual.size());
        }
        return Math.log(sum / sounds.size());
    }

    private static Set<Sound> soundsOf(FaultGroup group) {
        return switch (group) {
            case BEARING_LINE, UNKNOWN_BEARING, ROUGH, ENGINE_BEARING -> Set.of(Sound.TONE);
            case ECCENTRIC, BELT -> Set.of(Sound.BEAT);
            case LOOSE -> Set.of(Sound.KNOCK, Sound.BEAT);
            case INJECTOR_TICK, VALVE_TICK, ENGINE_KNOCK -> Set.of(Sound.KNOCK);
        };
    }

    /** How it speaks for or against a suspect, as a reason. */
    Evidence reason(FaultGroup group) {
        double nats = nats(group) - healthyNats();
        String text =
                sounds.contains(Sound.NOTHING)
                        ? "The complaint speaks of no noise."
                        : "The complaint says \""
                                + word
                                + "\", which "
                                + (sounds.stream().anyMatch(soundsOf(group)::contains)
                                        ? "is how such a fault sounds."
                                        : "is not how such a fault sounds.");
        return new Evidence(EvidenceKind.COMPLAINT, text, Reasons.TO_DB * nats);
    }
}
