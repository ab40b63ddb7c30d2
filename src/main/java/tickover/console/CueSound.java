package tickover.console;

import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;
import tickover.console.model.Cue;

/**
 * Short tones for what happens, because the eyes are at the engine. Silent without a loudspeaker.
 */
final class CueSound {
    private static final float RATE_HZ = 44_100;
    private static final double TONE_S = 0.12;
    private static final double FADE_S = 0.01;
    private static final double LOUDNESS = 0.5 * Short.MAX_VALUE;

    void play(Cue cue) {
        double[] tonesHz =
                switch (cue) {
                    case BEGIN -> new double[] {880};
                    case END -> new double[] {880, 880};
                    case GOOD -> new double[] {660, 990};
                    case REPEAT -> new double[] {440, 330, 220};
                };
        Thread player = new Thread(() -> sound(tonesHz), "tickover-cue");
        player.setDaemon(true);
        player.start();
    }

    private static void sound(double[] tonesHz) {
        AudioFormat format = new AudioFormat(RATE_HZ, 16, 1, true, false);
        try (SourceDataLine line = AudioSystem.getSourceDataLine(format)) {
            line.open(format);
            line.start();
            for (double tone : tonesHz) {
                byte[] bytes = tone(tone);
                line.write(bytes, 0, bytes.length);
            }
            line.drain();
        } catch (LineUnavailableException | IllegalArgumentException e) {
            // No loudspeaker, or another program has it: the screen says the same.
            return;
        }
    }

    private static byte[] tone(double hz) {
        int n = (int) (RATE_HZ * TONE_S);
        byte[] bytes = new byte[2 * n];
        for (int i = 0; i < n; i++) {
            double edgeS = Math.min(i, n - 1 - i) / RATE_HZ;
            double fade = Math.min(1, edgeS / FADE_S);
            short value = (short) (LOUDNESS * fade * Math.sin(2 * Math.PI * hz * i / RATE_HZ));
            bytes[2 * i] = (byte) value;
            bytes[2 * i + 1] = (byte) (value >> 8);
        }
        return bytes;
    }
}
