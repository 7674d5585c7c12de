package dev.splicebook.database;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** Turns a refused start into a description and an action, without a stack trace. */
class StartRefusedAnalyzer extends AbstractFailureAnalyzer<StartRefusedException> {

    @Override
    protected FailureAnalysis analyze(Throwable rootFailure, StartRefusedException cause) {
        return new FailureAnalysis(String.valueOf(cause.getMessage()), cause.action(), cause);
    }
}
