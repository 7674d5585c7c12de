package dev.splicebook.shop;

import dev.splicebook.web.Caller;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;

/** Gives the caller to controllers that ask for one. */
class CallerArguments implements HandlerMethodArgumentResolver {

    @Override
    public boolean supportsParameter(MethodParameter parameter) {
        return parameter.getParameterType() == Caller.class;
    }

    @Override
    public Caller resolveArgument(
            MethodParameter parameter,
            @Nullable ModelAndViewContainer container,
            NativeWebRequest request,
            @Nullable WebDataBinderFactory binders) {
        if (SecurityContextHolder.getContext().getAuthentication() instanceof CallerAuthentication authentication) {
            return authentication.getPrincipal();
        }
        throw new IllegalStateException(parameter.getExecutable() + " takes a caller but is open to all");
    }
}
