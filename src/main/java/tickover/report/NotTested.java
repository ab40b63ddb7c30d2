package tickover.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Regime;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.PartWords;
import tickover.drive.Role;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/** Says what a visit leaves open: where nobody listened, and what was not tried. */
final class NotTested {
    private static final String VALVE_COVER = "valve-cover";
    private static final String INJECTOR = "injector-";

    private final DriveModel model;
    private final VisitResult result;

    private NotTested(DriveModel model, VisitResult result) {
        this.model = model;
        this.result = result;
    }

    /**
     * Says it.
     *
     * @return whole sentences, at least one
     */
    static List<String> sentences(Visit visit, DriveModel model, VisitResult result) {
        NotTested all = new NotTested(model, result);
        List<String> out = new ArrayList<>();
        all.places(out);
        all.loads(out);
        unused(visit, result, out);
        if (result.findings().verdict() == Verdict.COMPONENT) {
            out.add(
                    "Nothing was taken off or looked at: the finding rests on measured vibration"
                            + " alone.");
        }
        out.add(
                "Brackets, mounts, exhaust and gearbox can make noises like these; they were not"
                        + " judged.");
        return out;
    }

    private void places(List<String> out) {
        Set<String> probed =
                result.captures().stream().map(c -> c.label().point()).collect(Collectors.toSet());
        List<String> missed =
                new ArrayList<>(
                        model.parts().stream()
                                .filter(p -> p.role() != Role.CRANK)
                                .map(DrivePart::name)
                                .filter(p -> !probed.contains(p))
                                .map(PartWords::the)
                                .toList());
        if (!probed.contains(VALVE_COVER)) {
            missed.add("the valve cover");
        }
        if (probed.stream().noneMatch(p -> p.startsWith(INJECTOR))) {
            missed.add("the injectors");
        }
        if (!missed.isEmpty()) {
            out.add("The probe was not put on " + enumerate(missed, "or") + ".");
        }
    }

    private void loads(List<String> out) {
        Map<String, Predicate<Condition>> states = new LinkedHashMap<>();
        if (has(Role.COMPRESSOR)) {
            states.put("with the air conditioning on", Condition::aircon);
        }
        if (has(Role.ALTERNATOR)) {
            states.put("with the headlamps on", Condition::headlights);
        }
        if (has(Role.STEERING_PUMP)) {
            states.put("with the steering at full lock", Condition::steering);
        }
        states.put("in gear", Condition::driveGear);
        if (!model.parts().isEmpty()) {
            states.put("with the belt off", c -> !c.beltOn());
        }
        List<String> missed = new ArrayList<>();
        states.forEach(
                (words, tried) -> {
                    if (result.captures().stream()
                            .noneMatch(c -> tried.test(c.label().condition()))) {
                        missed.add(words);
                    }
                });
        if (result.captures().stream().noneMatch(c -> c.label().regime() == Regime.SWEEP)) {
            missed.add("while the engine speed rises slowly");
        }
        if (!missed.isEmpty()) {
            out.add("There is no recording " + enumerate(missed, "or") + ".");
        }
    }

    private boolean has(Role role) {
        return model.parts().stream().anyMatch(p -> p.role() == role);
    }

    private static void unused(Visit visit, VisitResult result, List<String> out) {
        List<String> names = unusedCaptures(visit, result);
        if (!names.isEmpty()) {
            out.add(
                    (names.size() == 1 ? "Recording " : "Recordings ")
                            + enumerate(names, "and")
                            + " could not be used.");
        }
    }

    /** Captures of the visit that the result says nothing of. */
    static List<String> unusedCaptures(Visit visit, VisitResult result) {
        Set<String> used =
                result.captures().stream()
                        .map(CaptureSummary::label)
                        .map(l -> l.id())
                        .collect(Collectors.toSet());
        return visit.captures().stream()
                .map(VisitCapture::label)
                .map(l -> l.id())
                .filter(id -> !used.contains(id))
                .toList();
    }

    /** Joins words as a sentence does. */
    static String enumerate(List<String> words, String last) {
        if (words.size() <= 1) {
            return String.join("", words);
        }
        return String.join(", ", words.subList(0, words.size() - 1))
                + " "
                + last
                + " "
                + words.get(words.size() - 1);
    }
}
