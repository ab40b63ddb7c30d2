package tickover.sim;

import java.util.List;

/**
 * A belt span swinging at its own frequency, plucked by every firing. The frequency follows tension
 * and so loads, but not speed: it stays put in Hz while orders move.
 *
 * @param span the span as a resonance
 * @param pluckMps2 ring amplitude of one pluck, m/s²
 * @param firingsPerCrankTurn firing order
 * @param tension how tension answers loads; its base is 1
 */
record SpanTone(Mode span, double pluckMps2, double firingsPerCrankTurn, LoadGain tension)
        implements Shaker {
    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double[] plucks = new double[run.count()];
        double firing = Math.ceil(run.motion().turnsAt(0) * firingsPerCrankTurn);
        double timeS = 0;
        while (timeS < run.durationS()) {
            timeS = run.motion().timeAt(firing / firingsPerCrankTurn, 1);
            Impacts.add(plucks, timeS * run.sampleRateHz(), pluckMps2 * draw.gaussian());
            firing++;
        }
        double hz = span.frequencyHz() * Math.sqrt(tension.of(run.condition()));
        Mode tuned = new Mode(hz, span.dampingRatio(), span.gainRatio());
        ModeBank.ringing(List.of(tuned), run.sampleRateHz())
                .addAll(plucks, shake.directMps2, run.count());
    }
}
