package tickover.console.model;

import java.util.List;
import java.util.Objects;

/**
 * What the findings screen shows, in words.
 *
 * @param title vehicle and date; empty if nothing is shown
 * @param headline what it comes to, one sentence
 * @param howSure how sure that is, one sentence
 * @param suspects most probable first
 * @param tests best first
 * @param quality what limits the captures, one sentence each
 * @param changes what changed since an earlier visit, one sentence each
 */
public record FindingsState(
        String title,
        String headline,
        String howSure,
        List<Suspect> suspects,
        List<Test> tests,
        List<String> quality,
        List<String> changes) {
    /** Nothing to show yet. */
    public static final FindingsState EMPTY =
            new FindingsState("", "", "", List.of(), List.of(), List.of(), List.of());

    /**
     * One candidate.
     *
     * @param component its name in the answer format
     * @param name in a mechanic's words
     * @param probability 0 to 1
     * @param percent the same in words
     * @param fault what would be wrong with it
     * @param reasons why or why not, strongest first
     */
    public record Suspect(
            String component,
            String name,
            double probability,
            String percent,
            String fault,
            List<Reason> reasons) {
        public Suspect {
            Objects.requireNonNull(component, "component");
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(percent, "percent");
            Objects.requireNonNull(fault, "fault");
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * One reason.
     *
     * @param speaksFor whether it speaks for the suspect
     * @param sentence why
     */
    public record Reason(boolean speaksFor, String sentence) {
        public Reason {
            Objects.requireNonNull(sentence, "sentence");
        }
    }

    /**
     * Something to do next.
     *
     * @param minutes how long it takes, in words
     * @param sentence what to do and what it would mean
     * @param cautions what to watch for
     */
    public record Test(String minutes, String sentence, List<String> cautions) {
        public Test {
            Objects.requireNonNull(minutes, "minutes");
            Objects.requireNonNull(sentence, "sentence");
            cautions = List.copyOf(cautions);
        }
    }

    public FindingsState {
        Objects.requireNonNull(title, "title");
        Objects.requireNonNull(headline, "headline");
        Objects.requireNonNull(howSure, "howSure");
        suspects = List.copyOf(suspects);
        tests = List.copyOf(tests);
        quality = List.copyOf(quality);
        changes = List.copyOf(changes);
    }
}
