/** Discord's own schema, generated from its published description; the package brings no types for it. */
declare module 'discord-api-spec/zod' {
  import type { z } from 'zod';

  export const CreateMessageInteractionCallbackRequestSchema: z.ZodType;
  export const UpdateMessageInteractionCallbackRequestSchema: z.ZodType;
  export const ModalInteractionCallbackRequestSchema: z.ZodType;
  export const ApplicationCommandAutocompleteCallbackRequestSchema: z.ZodType;
  export const PongInteractionCallbackRequestSchema: z.ZodType;
  export const IncomingWebhookUpdateRequestPartialSchema: z.ZodType;
  export const IncomingWebhookRequestPartialSchema: z.ZodType;
  export const IncomingWebhookInteractionRequestSchema: z.ZodType;
  export const MessageCreateRequestSchema: z.ZodType;
  export const ApplicationCommandUpdateRequestSchema: z.ZodType;
}
